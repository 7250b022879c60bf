package enumerate

import (
	"slices"
	"sort"
	"strings"
)

// misfit is what stands out of place for one cause: at a position in a sheet, in two columns
// that hold what belongs at the other, or in a column Fits, at three positions or more.
type misfit struct {
	cells  []spot
	part   string // the first of the first cell, "" where it is not a single cell's matter
	whole  bool
	joined bool
}

// outOfPlace lists what Positions does not list where it lists something, by position and sheet.
func (c *catalogue) outOfPlace() []*misfit {
	var out []*misfit
	for _, s := range c.sheets {
		var here []*misfit
		for _, pos := range c.firstMet(s) {
			if m := c.misfitIn(s, pos); m != nil {
				here = append(here, m)
			}
		}
		out = append(out, c.joinFits(c.joinSwapped(here))...)
	}
	return out
}

// firstMet lists the positions of a sheet in the order in which rows fit something there.
func (c *catalogue) firstMet(s *sheet) []int {
	var out []int
	for _, f := range c.rowsIn(s) {
		for pos := range c.positions {
			if c.fitsParts(f, pos) && !slices.Contains(out, pos) {
				out = append(out, pos)
			}
		}
	}
	return out
}

// rowsIn lists the fitment rows of a sheet, in order.
func (c *catalogue) rowsIn(s *sheet) []*fit {
	var out []*fit
	for _, r := range s.rows {
		for _, f := range c.fits {
			if f.row == r && !r.gone {
				out = append(out, f)
			}
		}
	}
	return out
}

func (c *catalogue) fitsParts(f *fit, pos int) bool {
	st := f.says[pos]
	return st != nil && !st.unreadable && st.kind == "parts" && len(c.positions[pos].families) > 0
}

func (c *catalogue) misfitIn(s *sheet, pos int) *misfit {
	m, all := &misfit{}, 0
	for _, f := range c.rowsIn(s) {
		if !c.fitsParts(f, pos) {
			continue
		}
		all++
		if name := c.stranger(f, pos); name != "" {
			if m.part == "" {
				m.part = name
			}
			m.cells = append(m.cells, spot{f, pos})
		}
	}
	if m.part == "" {
		return nil
	}
	m.whole = all == len(m.cells) && all > 1
	return m
}

// stranger gives the first part of a cell that does not belong at its position, "" for none.
// One that must have a family and has none is told by itself.
func (c *catalogue) stranger(f *fit, pos int) string {
	for _, items := range c.written(f.cells[f.columns[pos]]) {
		for _, it := range items {
			if c.knows(it.name) && !c.belongs(it.name, pos) {
				if p := c.part(it.name); p != nil && c.kit(it.name) == nil && c.lacksFamily(p) {
					return ""
				}
				return it.name
			}
		}
	}
	return ""
}

func (c *catalogue) joinSwapped(all []*misfit) []*misfit {
	var out []*misfit
	for _, m := range all {
		i := slices.IndexFunc(out, func(o *misfit) bool {
			return o.whole && m.whole && !o.joined && c.belongs(o.part, m.cells[0].pos) && c.belongs(m.part, o.cells[0].pos)
		})
		if i < 0 {
			out = append(out, m)
			continue
		}
		out[i].cells, out[i].joined = append(out[i].cells, m.cells...), true
	}
	return out
}

func (c *catalogue) joinFits(all []*misfit) []*misfit {
	places := map[int]bool{}
	for _, m := range all {
		for _, s := range m.cells {
			if s.fit.columns[s.pos] == "Fits" {
				places[s.pos] = true
			}
		}
	}
	if len(places) < 3 {
		return all
	}
	one := &misfit{joined: true}
	for _, m := range all {
		one.cells = append(one.cells, m.cells...)
	}
	return []*misfit{one}
}

// expects gives what is told of it on a platform: at the first position where one of its
// cells decides; nil where none does.
func (m *misfit) expects(c *catalogue, o *outlook, w *world) *expected {
	for pos, p := range c.positions {
		e := &expected{key: key{"part-out-of-place", c.platforms[w.platform].name, p.name, m.cells[0].at().String()}, severity: "error", world: w}
		for i := range w.configs {
			if slices.ContainsFunc(o.verdicts[w][i][pos].cells, func(d deciding) bool { return slices.Contains(m.cells, spot{d.fit, pos}) }) {
				e.set = append(e.set, i)
			}
		}
		if len(e.set) == 0 {
			continue
		}
		for _, s := range m.cells {
			e.cells = append(e.cells, s.at())
		}
		sort.Slice(e.cells, func(i, j int) bool { return e.cells[i].String() < e.cells[j].String() })
		e.cells = slices.Compact(e.cells)
		if !m.whole && !m.joined {
			e.parts = []string{m.part}
		}
		return e
	}
	return nil
}

// misplaced lists all that is told.
func (c *catalogue) misplaced(o *outlook) []*expected {
	var out []*expected
	for _, m := range c.outOfPlace() {
		for _, w := range o.worlds {
			if e := m.expects(c, o, w); e != nil {
				out = append(out, e)
			}
		}
	}
	return out
}

// places compares part-out-of-place where Positions lists families, finding by finding: its
// cells, its vehicles and what is accepted of it. What is joined with a position where Family
// is blank is not worked out here.
func (k *checker) places() {
	told := map[*expected][]finding{}
	want := k.c.misplaced(k.o)
	mixed := map[ref]bool{}
	for _, f := range k.out.findings {
		if f.Code != "part-out-of-place" {
			continue
		}
		f.Cells = slices.DeleteFunc(slices.Clone(f.Cells), func(at ref) bool { return strings.HasPrefix(strings.ToLower(at.Sheet), "positions") })
		if f.Severity != "error" || k.blank(f.Cells) {
			for _, at := range f.Cells {
				mixed[at] = true
			}
			continue
		}
		i := slices.IndexFunc(want, func(e *expected) bool {
			return e.platform == f.Platform && e.position == f.Position && slices.Contains(f.Cells, e.cells[0])
		})
		if i < 0 {
			k.failf(f.Code, "not expected: %v: %s", f.Cells, f.Message)
			continue
		}
		told[want[i]] = append(told[want[i]], f)
	}
	for _, e := range want {
		if len(told[e]) > 0 || !mixed[e.cells[0]] {
			k.oneFinding(e, told[e])
		}
	}
}

// blank reports whether one of some fitment cells is at a position where Family is blank.
func (k *checker) blank(cells []ref) bool {
	spots := k.c.spots()
	return slices.ContainsFunc(cells, func(at ref) bool {
		return slices.ContainsFunc(spots[at], func(s spot) bool { return len(k.c.positions[s.pos].families) == 0 })
	})
}
