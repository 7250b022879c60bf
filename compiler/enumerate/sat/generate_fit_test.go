package sat

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// fitments adds the rows of a position in one of the ways in which people write them.
func (m *maker) fitments(pos *model.Position) {
	choices := 2 + m.IntN(9)
	for _, p := range m.cat.Platforms {
		switch m.IntN(5) {
		case 0, 1, 2:
			for _, w := range m.split(p, 6+m.IntN(30)) {
				m.row(pos, w, 0, choices)
			}
		case 3: // whatever comes, over rows that hold for nearly all
			for range 4 + m.IntN(16) {
				w := m.when(1 + m.IntN(3))
				w.Platforms = []*model.Platform{p}
				m.row(pos, w, m.IntN(2), choices)
			}
		case 4:
			for _, w := range m.split(p, 3+m.IntN(8)) {
				m.row(pos, w, -1, choices)
			}
		}
	}
	for range m.IntN(6) { // exceptions
		m.row(pos, m.when(1+m.IntN(4)), 1+m.IntN(2), choices)
	}
	for range m.IntN(3) { // nearly all
		m.row(pos, m.when(m.IntN(2)), -1-m.IntN(2), choices)
	}
	m.repeat(pos)
	for range m.IntN(3) { // so narrow that they may match nothing
		m.row(pos, m.narrow(), 0, choices)
	}
}

// split cuts a platform into rows by the year and a few traits, so that together they
// hold every vehicle; then some rows are lost, and some become too wide or too narrow.
func (m *maker) split(p *model.Platform, rows int) []model.When {
	w := model.When{Platforms: []*model.Platform{p}}
	if len(p.Years) > 1 {
		w.Years = &model.Years{Spans: []model.Span{{From: p.Years[0], To: p.Years[len(p.Years)-1]}}}
	}
	for _, i := range m.Perm(len(m.cat.Traits))[:1+m.IntN(5)] {
		t := m.cat.Traits[i]
		w.Traits = append(w.Traits, model.TraitSet{Trait: t, Values: space.All(t.Absent() + 1)})
	}
	slices.SortFunc(w.Traits, func(a, b model.TraitSet) int { return a.Trait.Index - b.Trait.Index })
	out := []model.When{w}
	for range 20 * rows {
		if len(out) < rows {
			out = m.cut(out, m.IntN(len(out)))
		}
	}
	slips := []int{0, 4, 12}[m.IntN(3)]
	for i := range out {
		if m.chance(slips) {
			m.slip(&out[i])
		}
	}
	if m.chance(3 * slips) {
		out = slices.Delete(out, 0, 1)
	}
	return out
}

// cut makes two rows of one where that can be.
func (m *maker) cut(rows []model.When, i int) []model.When {
	a, b := rows[i], rows[i]
	k := m.IntN(len(a.Traits) + 1)
	if k == len(a.Traits) {
		if a.Years == nil || a.Years.Not {
			return rows
		}
		s := a.Years.Spans[0]
		if s.To-s.From < 1 || s.To-s.From > 100 {
			return rows
		}
		at := s.From + 1 + m.IntN(s.To-s.From)
		a.Years = &model.Years{Spans: []model.Span{{From: s.From, To: at - 1}}}
		b.Years = &model.Years{Spans: []model.Span{{From: at, To: s.To}}}
	} else {
		set := a.Traits[k].Values
		half := set.And(m.some(a.Traits[k].Trait.Absent() + 1))
		if half.IsEmpty() || set.In(half) {
			return rows
		}
		a, b = with(a, k, half), with(b, k, set.Without(half))
	}
	rows[i] = a
	return append(rows, b)
}

// with gives a condition whose k-th trait has other values.
func with(w model.When, k int, set space.Set) model.When {
	w.Traits = slices.Clone(w.Traits)
	w.Traits[k].Values = set
	return w
}

// slip changes a condition as a slip of the hand would.
func (m *maker) slip(w *model.When) {
	k := m.IntN(len(w.Traits))
	switch m.IntN(3) {
	case 0:
		w.Traits = slices.Delete(slices.Clone(w.Traits), k, k+1)
	case 1:
		*w = with(*w, k, m.some(w.Traits[k].Trait.Absent()+1))
	case 2:
		w.Years = nil
	}
}

// repeat adds rows that say what another row or several already say.
func (m *maker) repeat(pos *model.Position) {
	var rows []*model.Fitment
	for _, f := range m.cat.Fitments {
		if f.Cells[0].Position == pos {
			rows = append(rows, f)
		}
	}
	for range m.IntN(5) {
		f := rows[m.IntN(len(rows))]
		fits := *f.Cells[0].Fits
		switch {
		case len(f.When.Traits) > 0 && m.chance(60): // two halves
			for _, half := range m.cut([]model.When{f.When}, 0) {
				m.add(pos, half, f.Precedence, &fits)
			}
		default:
			w := f.When
			if t := m.trait(); !slices.ContainsFunc(w.Traits, func(s model.TraitSet) bool { return s.Trait == t }) {
				w.Traits = append(slices.Clone(w.Traits), model.TraitSet{Trait: t, Values: m.some(t.Absent() + 1)})
				slices.SortFunc(w.Traits, func(a, b model.TraitSet) int { return a.Trait.Index - b.Trait.Index })
			}
			m.add(pos, w, f.Precedence, &fits)
		}
	}
}

// narrow takes a value or two of many traits.
func (m *maker) narrow() model.When {
	w := m.when(2 + m.IntN(7))
	for k := range w.Traits {
		n := w.Traits[k].Trait.Absent() + 1
		w.Traits[k].Values = space.SetOf(m.IntN(n), m.IntN(n))
	}
	return w
}

func (m *maker) row(pos *model.Position, w model.When, precedence, choices int) {
	m.add(pos, w, precedence, m.fits(pos, choices))
}

// add writes a row; a wide one says something of a second position.
func (m *maker) add(pos *model.Position, w model.When, precedence int, fits *model.Fits) {
	f := &model.Fitment{Index: len(m.cat.Fitments), When: w, Precedence: precedence, At: m.at("Fitment")}
	cell := func(p *model.Position, fits *model.Fits) {
		f.Cells = append(f.Cells, &model.FitCell{Row: f, Position: p, Fits: fits, At: column(f.At, 10+p.Index)})
	}
	cell(pos, fits)
	if other := m.cat.Positions[m.IntN(len(m.cat.Positions))]; other != pos && m.chance(15) {
		cell(other, m.fits(other, 6))
	}
	m.cat.Fitments = append(m.cat.Fitments, f)
}
