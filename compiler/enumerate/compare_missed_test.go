package enumerate

import "slices"

// missed wants one of two rows to be in what rows-mergeable tells where they
// stand on one sheet, are written alike but for one condition, and are needed
// cell by cell, and where the years of that condition follow on one another or
// it names values of one trait. (One of them, since a row is joined once. Of rows that
// vehicles may meet which are not known, it is not told which cells are needed.)
func (k *checker) missed(used map[*fit]bool) {
	cells := k.c.spots()
	idle := map[ref]bool{}
	for _, f := range k.out.findings {
		if f.Code == "cell-redundant" && len(f.Cells) == 1 {
			idle[f.Cells[0]] = true
		}
	}
	var rows []*fit
	for _, f := range k.c.fits {
		if !f.gone && f.fault == "" && !f.nowhere && !used[f] && k.o.exists(f.conds) && !k.c.partial(f.conds) && f.needed(cells, idle) {
			rows = append(rows, f)
		}
	}
	for i, f := range rows {
		for _, g := range rows[:i] {
			if f.first.File == g.first.File && f.first.Sheet == g.first.Sheet && f.precedence == g.precedence &&
				f.writtenLike(g) && f.oneApart(g) {
				k.failf("rows-mergeable", "rows %d and %d of %s could be one and are not told", g.line, f.line, f.first.Sheet)
			}
		}
	}
}

// needed reports whether a row has cells, each its own and none of them told
// as redundant.
func (f *fit) needed(cells map[ref][]spot, idle map[ref]bool) bool {
	for pos, st := range f.says {
		at := spot{f, pos}.at()
		if st.unreadable || len(cells[at]) != 1 || idle[at] {
			return false
		}
	}
	return len(f.says) > 0
}

// writtenLike reports whether two rows say and note the same, letter by letter.
func (f *fit) writtenLike(g *fit) bool {
	if len(f.says) != len(g.says) || f.note != g.note || !slices.Equal(f.notes, g.notes) {
		return false
	}
	for pos, st := range f.says {
		column := f.columns[pos]
		same := g.says[pos] == st && g.columns[pos] == column
		if !same || f.cells[column] != g.cells[column] || f.cells[column+" note"] != g.cells[column+" note"] {
			return false
		}
	}
	return true
}

// oneApart reports whether conditions differ in one only, in a way that one
// row could say.
func (f *fit) oneApart(g *fit) bool {
	if !f.platform.like(g.platform) {
		return false
	}
	differ := -1
	for i, c := range f.traits {
		if c.like(g.traits[i]) {
			continue
		}
		if differ >= 0 || c.free() || g.traits[i].free() {
			return false
		}
		differ = i
	}
	if differ >= 0 {
		return f.years.like(g.years)
	}
	return f.years.follows(g.years) || g.years.follows(f.years)
}

// free reports whether a condition is no restriction as it is written.
func (c cond) free() bool { return c.form == "" || c.form == "any" }

func (c cond) like(d cond) bool {
	return c.free() && d.free() || c.form == d.form && slices.Equal(c.spans, d.spans)
}

// follows reports whether one range of years ends where or before another
// begins, and none lies between; or whether they overlap.
func (c cond) follows(d cond) bool {
	if c.form != "list" || d.form != "list" || len(c.spans) != 1 || len(d.spans) != 1 {
		return false
	}
	a, b := c.spans[0], d.spans[0]
	return a[0] <= b[0] && b[0] <= a[1]+1
}
