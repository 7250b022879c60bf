package propose

import (
	"fmt"
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// titles leaves out what stands above and below the table.
func (r *reading) titles() {
	if n := len(r.t.Titles); n > 0 && !strings.HasPrefix(r.vehicle.where, "cell ") {
		first, last := r.t.Titles[0].Pos.Row, r.t.Titles[n-1].Pos.Row
		r.rule("skip", rowsFrom(first, last), "", Likely, "titles above the table: "+word.Quote(trimmed(r.t.Titles[0].Text)))
		for _, l := range r.t.Titles {
			if len(r.b.within(l.Text)) > 0 || restrictsTable(l.Text) {
				r.remark([]cell.Pos{l.Pos}, trimmed(l.Text), "a text above the table that may hold for all of it; it is left out", `a row of Layouts: is, "the value", and the trait, if the whole table is about these vehicles alone`)
			}
		}
	}
	for _, l := range r.t.Totals {
		r.rule("skip", "row "+word.Quote(trimmed(l.Text)), "", Likely, "a row that adds others up")
	}
	for _, l := range r.t.Repeats {
		r.rule("skip", rowsFrom(l.Pos.Row, l.Pos.Row), "", Likely, "the headings again")
	}
	r.foot()
}

// restrictsTable tells titles that may limit all rows of a table.
func restrictsTable(text string) bool {
	topic, not := topicOf(text)
	return not || topic != strings.TrimRight(trimmed(text), ".,;: ")
}

func rowsFrom(first, last int32) string { return fmt.Sprintf("rows %d-%d", first, last) }

// foot leaves out texts below the table that explain no sign of it.
func (r *reading) foot() {
	for _, l := range r.t.Foot {
		f := shape.Footnotes(l.Text)
		if sign, says, ok := shape.Numbered(l.Text); ok && len(f) == 0 {
			f = [][2]string{{sign, says}}
		}
		if len(f) > 0 && r.declares(f[0][0]) {
			continue
		}
		if len(f) > 0 && r.declaresPlain(f[0][0]) {
			r.rule("skip", rowsFrom(l.Pos.Row, l.Pos.Row), "", Likely, "it explains a sign, which a row mark says")
			continue
		}
		if len(f) > 0 {
			if cells := r.signed(f[0][0]); len(cells) > 0 {
				r.rule("skip", rowsFrom(l.Pos.Row, l.Pos.Row), "", Unsure, "a text below the table")
				r.remark(append([]cell.Pos{l.Pos}, cells...), trimmed(l.Text), "a sign behind what cells of a list say; no row of Layouts reads it, so these cells will be told as names that nobody knows",
					"what the text says into a column of its own, as a condition, and the cells without the sign")
				continue
			}
		}
		r.rule("skip", rowsFrom(l.Pos.Row, l.Pos.Row), "", Unsure, "a text below the table")
		r.remark([]cell.Pos{l.Pos}, trimmed(l.Text), "a text that no sign in the table leads to; it is left out", "a condition in the rows that it is about, where it limits what fits")
	}
}

// declaresPlain is declares whatever a sign is dressed in.
func (r *reading) declaresPlain(sign string) bool {
	for _, rule := range r.rules {
		if rule.Word == "mark" && shape.Plain(rule.Where) == shape.Plain(sign) {
			return true
		}
	}
	return false
}

// signed gives the cells outside of grids that a sign stands behind.
func (r *reading) signed(sign string) []cell.Pos {
	var out []cell.Pos
	for row := range r.t.Each {
		for _, c := range row.Cells {
			if _, behind := shape.Sign(c.Text); behind == sign {
				out = append(out, cell.Pos{Row: row.Number, Col: c.Col})
			}
		}
	}
	return out
}

// declares tells whether a mark or a sign is declared.
func (r *reading) declares(sign string) bool {
	for _, rule := range r.rules {
		if rule.Word == "mark" && word.Fold(rule.Where) == word.Fold(sign) {
			return true
		}
	}
	return false
}

// sections leaves out rows that say one thing for those below, where nothing is read from them.
func (r *reading) sections() {
	for _, rule := range r.rules {
		if rule.Word == "section" {
			return
		}
	}
	seen := map[string]bool{}
	for _, l := range r.t.Sections {
		if text := trimmed(l.Text); !seen[word.Fold(text)] {
			seen[word.Fold(text)] = true
			r.rule("skip", "row "+word.Quote(text), "", Unsure, "a heading between the rows; what it says is not needed to tell places apart")
		}
	}
	if len(r.t.Sections) > 0 && r.place.where != "both" {
		l := r.t.Sections[0]
		r.remark([]cell.Pos{l.Pos}, trimmed(l.Text), "headings between the rows are left out: the other columns tell places and vehicles apart without them",
			"a row of Layouts section with the column that they say for the rows below, in place of the rows skip, if they limit what fits")
	}
}
