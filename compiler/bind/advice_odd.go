package bind

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// fewest is how many other rows, or complaints, must agree before one that differs is told.
const fewest = 3

func adviceOdd() finding.Kind {
	return finding.Kind{Code: finding.AdviceOdd, Severity: "warning",
		Summary: "a cell of Complaints or Inspections is blank, or stands under the other heading, where all others agree",
		Doc:     "A blank Level is a note, the least there is, so that a danger whose Level was forgotten is printed as one; where all other rows state theirs (three or more), the blank one is told. So is a complaint without anything to Check first where all others have it. Two cells of a row were exchanged where one says what other rows say under the other's heading, or where it ends like a sentence and its neighbour does not, and all other rows have it the other way round. A text that stands under both headings of its row is told as well.",
		Before:  "Inspections!A4  Broken leaves   G4  (blank under Level; all other rows have one)",
		After:   "Inspections!A4  Broken leaves   G4  danger"}
}

// oddAdvice tells of cells of Complaints and Inspections that differ from all others of their column.
func (b *binder) oddAdvice() {
	inspections, complaints := b.rowsOf(schema.Inspections), b.rowsOf(schema.Complaints)
	b.blankLevels(inspections)
	b.uncheckedComplaints(complaints)
	b.exchanged(inspections, "What to look at", "Why", true)
	b.exchanged(complaints, "How it helps", "Check first", false)
}

func (b *binder) rowsOf(kind string) []row {
	var out []row
	for _, t := range b.kinds[kind] {
		for i := range t.Records {
			out = append(out, row{t, &t.Records[i]})
		}
	}
	return out
}

// blankLevels tells of a Level that is blank: one of every four may be, and at least three are not.
func (b *binder) blankLevels(rows []row) {
	var blank []cell.Place
	for _, r := range rows {
		if r.text("Level") == "" && r.text("What to look at") != "" {
			blank = append(blank, r.at("Level"))
		}
	}
	filled := len(rows) - len(blank)
	if len(blank) == 0 || filled < fewest || 4*len(blank) > len(rows) {
		return
	}
	b.Report(&finding.Finding{Code: finding.AdviceOdd, Severity: finding.Warning, Cells: finding.At(blank...),
		Message: "Level is blank, which is a note, the least there is, and the other rows state theirs",
		Fix:     "write danger, warning or notice; or note, if that is meant"})
}

// uncheckedComplaints tells of a complaint with nothing to check first where all others have it.
func (b *binder) uncheckedComplaints(rows []row) {
	var names []string
	first, checked := map[string]row{}, map[string]bool{}
	for _, r := range rows {
		name := word.Fold(r.name("Complaint"))
		if name == "" {
			continue
		}
		if _, known := first[name]; !known {
			names, first[name] = append(names, name), r
		}
		checked[name] = checked[name] || r.text("Check first") != ""
	}
	var without []string
	for _, n := range names {
		if !checked[n] {
			without = append(without, n)
		}
	}
	if len(without) != 1 || len(names) <= fewest {
		return
	}
	if word.Slip(without[0], slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == without[0] })) != "" {
		return // it is probably misspelt, which is told by itself
	}
	r := first[without[0]]
	b.Report(&finding.Finding{Code: finding.AdviceOdd, Severity: finding.Warning, Cells: finding.At(r.at("Complaint")),
		Message: fmt.Sprintf("the complaint %q has nothing under Check first, and all others have", r.name("Complaint")),
		Fix:     "write what to look at before anything is fitted into one of its rows"})
}

// exchanged tells of rows whose cells in two columns seem to have changed places. Whether texts of the columns differ
// in style, style says.
func (b *binder) exchanged(rows []row, one, other string, style bool) {
	ones, others := map[string]int{}, map[string]int{}
	usual, reversed := 0, 0
	for _, r := range rows {
		ones[folded(r, one)]++
		others[folded(r, other)]++
		switch {
		case odd(r, one, other):
			reversed++
		case sentence(r.text(other)) && !sentence(r.text(one)):
			usual++
		}
	}
	style = style && reversed == 1 && usual == len(rows)-1 && usual >= fewest
	for _, r := range rows {
		x, y := folded(r, one), folded(r, other)
		switch {
		case x == "" || y == "":
		case x == y:
			b.tellExchanged(r, one, other, fmt.Sprintf("%s and %s of the row say the same", one, other), "write what belongs there, or leave "+other+" blank")
		case others[x] > 0 && others[x] >= ones[x]:
			b.tellExchanged(r, one, other, fmt.Sprintf("%s says what another row says under %s", one, other), "exchange the two cells, or correct the other row")
		case ones[y] > 0 && ones[y] > others[y]:
			b.tellExchanged(r, one, other, fmt.Sprintf("%s says what another row says under %s", other, one), "exchange the two cells, or correct the other row")
		case style && odd(r, one, other):
			b.tellExchanged(r, one, other, fmt.Sprintf("%s and %s seem to have changed places: the one ends like a sentence and the other does not, and in all other rows it is the other way round", one, other), "exchange the two cells if that is so")
		}
	}
}

func (b *binder) tellExchanged(r row, one, other, message, fix string) {
	b.Report(&finding.Finding{Code: finding.AdviceOdd, Severity: finding.Warning, Cells: finding.At(r.at(one), r.at(other)), Message: message, Fix: fix})
}

func folded(r row, column string) string { return word.Fold(r.text(column)) }

// odd tells whether the first of two cells ends like a sentence, and the second, which is filled, does not.
func odd(r row, one, other string) bool {
	return sentence(r.text(one)) && r.text(other) != "" && !sentence(r.text(other))
}

func sentence(text string) bool { return strings.HasSuffix(strings.TrimSpace(text), ".") }
