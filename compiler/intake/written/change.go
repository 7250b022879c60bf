package written

import "slices"

// Change is a row of which one cell alone says something else.
type Change struct {
	Row int    // of New, by index
	Was string // what the cell said in Old
	Now string
}

// Changes is what has changed in one column alone.
type Changes struct {
	Cells []Change // in the order of New's rows
	// Other tells of the rows of Old and New, by index, that are neither among Cells nor the
	// same in both releases: added, taken out, or changed elsewhere.
	Other [2]map[int]bool
}

// Untouched tells whether nothing differs but the order of rows.
func (p *Pair) Untouched() bool { return len(p.old)+len(p.new) == 0 }

// Changes gives what has changed in a column of Columns.
func (p *Pair) Changes(column int) *Changes {
	groups := map[sum]*[2][]int{}
	for release, rows := range [2][]int{p.old, p.new} {
		for i, row := range rows {
			rest := p.sums[release][i] - mix(column, p.id(release, row, column))
			g := groups[rest]
			if g == nil {
				g = &[2][]int{}
				groups[rest] = g
			}
			g[release] = append(g[release], row)
		}
	}
	was := map[int]int{}
	for _, g := range groups {
		if p.same(g, column) {
			for i, row := range g[1] {
				was[row] = g[0][i]
			}
		}
	}
	return p.changes(column, was)
}

// same tells whether as many rows of either release are the same but for a column.
func (p *Pair) same(g *[2][]int, column int) bool {
	if len(g[0]) != len(g[1]) {
		return false
	}
	first := g[0][0]
	return !slices.ContainsFunc(g[1], func(n int) bool { return !p.equal(first, n, column) }) &&
		!slices.ContainsFunc(g[0], func(o int) bool { return !p.equal(o, g[1][0], column) })
}

// changes gives the rows of New, with those of Old that they were, and all others.
func (p *Pair) changes(column int, was map[int]int) *Changes {
	c, out := &p.Columns[column], &Changes{Other: [2]map[int]bool{{}, {}}}
	for _, row := range p.old {
		out.Other[0][row] = true
	}
	for _, row := range p.new {
		old, ok := was[row]
		if !ok {
			out.Other[1][row] = true
			continue
		}
		delete(out.Other[0], old)
		out.Cells = append(out.Cells, Change{row, p.Old.Text(old, c.Old), p.New.Text(row, c.New)})
	}
	return out
}

// Earlier is the sentence for a cell that said something else in the earlier release.
func Earlier(was string) string {
	if was == "" {
		return "it was blank in the earlier release"
	}
	return "the earlier release says " + was
}
