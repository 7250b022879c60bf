package drag

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/written"
	"ferrule/schema/word"
)

// How many cells a fill must have gone over, and how many different texts must have stood
// there: a cell that changes is an edit, and so is one text that becomes another, or blanks
// that are filled. Blanks beside a text are another text where the fill is long. Where a number
// climbs over one text, it takes more, and so does a text for people.
const (
	leastOver  = 2
	leastTexts = 2
	leastProse = 3
	longOver   = 3
)

// Since tells of cells of a sheet that a fill has gone over since an earlier release: they
// go on from a cell that has stayed, each said something else before, and nothing else in
// their rows has changed. skip names columns of the pair that are not looked at. meant tells
// whether a text had to go from so many cells, whatever stands there now.
func Since(p *written.Pair, skip map[int]bool, meant func(was string, cells int) bool) []*finding.Finding {
	var out []*finding.Finding
	if p.Untouched() {
		return nil
	}
	for k := range p.Columns {
		if c := p.Changes(k); !skip[k] && len(c.Cells) >= leastOver {
			out = append(out, newFills(p, k, c, meant).find()...)
		}
	}
	return out
}

// fills looks for fills in one column.
type fills struct {
	*written.Pair
	column  written.Both
	changed map[int]written.Change
	other   map[int]bool // rows of which nobody knows what the column said
	meant   func(was string, cells int) bool
	climbs  bool // the column may climb
	prose   bool
}

func newFills(p *written.Pair, k int, c *written.Changes, meant func(string, int) bool) *fills {
	f := &fills{Pair: p, column: p.Columns[k], changed: map[int]written.Change{}, other: c.Other[1], meant: meant}
	for _, x := range c.Cells {
		f.changed[x.Row] = x
	}
	col := &p.New.Columns[f.column.New]
	f.prose = col.Known && written.Prose(p.New.Kind, col.Name)
	f.climbs = !col.Known || ownClass(p.New.Kind, col.Name) != never
	return f
}

func (f *fills) text(row int) string { return f.New.Text(row, f.column.New) }

// find goes down the column: stretches of one text, then stretches that climb.
func (f *fills) find() []*finding.Finding {
	var out []*finding.Finding
	f.stretches(f.copies, func(from, to int, _ climb) { out = append(out, f.copied(from, to)...) })
	if f.climbs {
		f.stretches(climbing, func(from, to int, c climb) { out = append(out, f.climbed(from, to, c)...) })
	}
	return out
}

func (f *fills) copies(a, b string) (climb, bool) { return 0, a == b && a != "" }

// stretches calls tell for the longest stretches of three rows or more, one below the other,
// in which each cell goes on from the one above.
func (f *fills) stretches(goes func(a, b string) (climb, bool), tell func(from, to int, c climb)) {
	from, how := 0, climb(0)
	for i := 1; i <= len(f.New.Rows); i++ {
		c, ok := climb(0), false
		if i < len(f.New.Rows) && f.New.Rows[i].Number == f.New.Rows[i-1].Number+1 {
			c, ok = goes(f.text(i-1), f.text(i))
		}
		if ok && (from == i-1 || c == how) {
			how = c
			continue
		}
		if i-from > leastOver {
			tell(from, i, how)
		}
		if from = i; ok {
			from, how = i-1, c
		}
	}
}

// over gives the cells of a stretch that have changed, and what they said as far as it need
// not have gone; blanks last.
func (f *fills) over(from, to int) (cells []written.Change, texts []string) {
	n := map[string]int{}
	for row := from; row < to; row++ {
		if c, ok := f.changed[row]; ok {
			cells = append(cells, c)
			n[c.Was]++
		}
	}
	for _, c := range cells {
		if c.Was != "" && !slices.Contains(texts, c.Was) && !f.meant(c.Was, n[c.Was]) {
			texts = append(texts, c.Was)
		}
	}
	if n[""] > 0 && len(texts) > 0 && len(cells) >= longOver {
		texts = append(texts, "")
	}
	return cells, texts
}

// stays tells whether a cell says what it said in the earlier release.
func (f *fills) stays(row int) bool {
	_, changed := f.changed[row]
	return !changed && !f.other[row]
}

func (f *fills) copied(from, to int) []*finding.Finding {
	cells, texts := f.over(from, to)
	least := leastTexts
	if f.prose {
		least = leastProse
	}
	if len(cells) < leastOver || len(texts) < least || !f.stays(from) && !f.stays(to-1) {
		return nil
	}
	from, beside := from, "above"
	if !f.stays(from) {
		from, beside = to-1, "below"
	}
	return f.finding(cells, texts, fmt.Sprintf("%s says %s now, as the cell %s them does", f.column.Name, word.Quote(f.text(from)), beside))
}

// climbed is about a stretch in which a number climbs. One text that became a plain number
// counting up is a list that someone has put right.
func (f *fills) climbed(from, to int, how climb) []*finding.Finding {
	cells, texts := f.over(from, to)
	repeated := len(texts) == 1 && texts[0] == f.text(from) && len(cells) >= longOver && how != whole
	if len(cells) < leastOver || len(texts) < leastTexts && !repeated || !f.stays(from) {
		return nil
	}
	return f.finding(cells, texts, fmt.Sprintf("%s climbs by one from %s to %s now", f.column.Name, word.Quote(f.text(from)), word.Quote(cells[len(cells)-1].Now)))
}

// Most of what a finding names.
const (
	mostCells = 5
	mostTexts = 4
)

func (f *fills) finding(cells []written.Change, texts []string, words string) []*finding.Finding {
	var had []string
	for _, t := range texts[:min(len(texts), mostTexts)] {
		if t == "" {
			had = append(had, "blanks")
			continue
		}
		had = append(had, word.Quote(t))
	}
	if n := len(texts) - mostTexts; n > 0 {
		had = append(had, fmt.Sprintf("%d more", n))
	}
	gist := fmt.Sprintf("%s, where the earlier release had %s", words, word.List(had, "and"))
	out := &finding.Finding{Code: finding.CellDragged, Severity: finding.Warning, Constant: gist,
		Message: fmt.Sprintf("in %d cells %s, and nothing else in their rows has changed", len(cells), gist),
		Fix:     "if a cell was dragged over them, write again what each said"}
	for _, c := range cells[:min(len(cells), mostCells)] {
		out.Cells = append(out.Cells, finding.Cell{Place: f.New.Place(c.Row, f.column.New), Note: written.Earlier(c.Was)})
	}
	return []*finding.Finding{out}
}
