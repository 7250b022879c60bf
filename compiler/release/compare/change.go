package compare

import (
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// mention gives the traits that the rows of either release name for a position.
func mention(p *pair, views ...*view) decide.Mention {
	m := make(decide.Mention, p.Traits())
	for _, v := range views {
		if v.place != nil {
			m.Add(v.place.Mentioned())
		}
	}
	return m
}

// difference is a change on its way into words.
type difference struct {
	Change
	was, is  *state
	old, new *view
	where    space.Region
	by       decide.Mention
	first    []int // the first configuration
}

// tell puts a difference into words: what somebody accepted is told apart.
func (w *worker) tell(p *pair, x places, d difference) []difference {
	d.Kind = kindOf(d.was.Answer, d.is.Answer)
	d.Platform, d.Position = p.platform.Name, x.name()
	shares, rest := w.accepted(p, d)
	var out []difference
	add := func(where space.Region, by *finding.Accepted) {
		d := d
		d.first, _ = p.First(where)
		d.Old, d.New, d.Accepted = d.old.answer(p, d.was, where), d.new.answer(p, d.is, where), by
		d.Region = p.region(where, nil, d.by)
		out = append(out, d)
	}
	if rest != space.Empty {
		add(rest, nil)
	}
	for _, s := range shares {
		add(s.Region, accept.Mark(s.Row))
	}
	return out
}

// answer gives what a state says with the cells that say so in a region.
func (v *view) answer(p *pair, s *state, where space.Region) Answer {
	a := s.Answer
	if v.place == nil {
		return a
	}
	for i := range v.place.Levels {
		level := &v.place.Levels[i]
		at := p.Intersect(where, level.Open)
		if at == space.Empty {
			continue
		}
		for _, c := range level.Cells {
			if p.Meets(at, c.Box) {
				a.Cells = append(a.Cells, c.At)
			}
		}
	}
	slices.SortFunc(a.Cells, cell.Compare)
	a.Cells = slices.Compact(a.Cells) // a merged range is one cell
	if n := len(a.Cells) - MaxCells; n > 0 {
		a.Cells, a.More = a.Cells[:MaxCells:MaxCells], n
	}
	return a
}
