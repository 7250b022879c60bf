package propose

import (
	"fmt"

	"ferrule/compiler/propose/shape"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// sayDown writes which columns leave out what stands above.
func (r *reading) sayDown() {
	for _, c := range r.all {
		if !c.leaves() || c.role == Name && r.place.where != r.where(c) {
			continue
		}
		gaps, first := r.gaps(c)
		if gaps > 0 && !r.repeats(c) && (c.role == Years || c.role == Trait) {
			r.remark([]cell.Pos{first}, "(blank)", fmt.Sprintf("a blank under %s is read as any", word.Quote(c.whole())),
				fmt.Sprintf("if a blank there means what stands above, a row of Layouts: down, %s", r.where(c)))
		}
		if gaps > 0 && r.repeats(c) {
			r.rule("down", r.where(c), "", Unsure, counted(gaps, "cell is", "cells are")+" blank below filled ones")
			r.remark([]cell.Pos{first}, "(blank)", fmt.Sprintf("a blank under %s is read as what stands above", word.Quote(c.whole())),
				`if a blank there means "any", leave out the row "down" of Layouts`)
		}
	}
}

// gaps counts the blank cells of a column in rows of values, below the first filled one.
func (r *reading) gaps(c *column) (n int, first cell.Pos) {
	begun := false
	for row := range r.t.Each {
		if row.At(c.Col) != "" {
			begun = true
		} else if begun {
			if n++; n == 1 {
				first = cell.Pos{Row: row.Number, Col: c.Col}
			}
		}
	}
	return n, first
}

// repeats tells whether a column leaves out what stands above: it begins filled, is blank often, and
// never says the same twice in a row.
func (r *reading) repeats(c *column) bool {
	last, started, again := "", false, false
	for row := range r.t.Each {
		text := row.At(c.Col)
		if !started && text == "" {
			return false
		}
		started = true
		if text == "" && r.begins(row, c) {
			return false
		}
		if text != "" {
			again = again || text == last
			last = text
		}
	}
	return !again && c.Filled*10 <= r.t.Rows()*8 && (c.role == Platform || c.role == Place || c.Col <= r.leading())
}

// begins tells whether a row begins something new in a column before one: what that leaves out there
// is not as above.
func (r *reading) begins(row *shape.Row, c *column) bool {
	for _, o := range r.all {
		if o.Col < c.Col && o.leaves() && row.At(o.Col) != "" {
			return true
		}
	}
	return false
}

// leading is the last of the columns that stand before those of parts.
func (r *reading) leading() int32 {
	for _, c := range r.all {
		if c.role == PartNo || c.role == PlaceOf || c.role == Grid {
			return c.Col
		}
	}
	return 0
}
