package pick

import (
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

func (s *Standing) matches() bool { return len(s.Decides) > 0 || len(s.Overruled) > 0 }

// standings goes through the cells of a position; false where it takes too many boxes to
// say where they decide. It runs inside Try.
func (e *explainer) standings(pos *model.Position) (out []Standing, exact bool) {
	place := decide.Ground(e.Platform, pos)
	known := map[*model.FitCell]bool{}
	for i := range place.Levels {
		for _, c := range place.Levels[i].Cells {
			known[c.FitCell] = true
			s, exact := e.standing(place, i, c)
			if !exact {
				return nil, false
			}
			if len(s.Decides) > 0 || e.looksAt(c.FitCell) {
				out = append(out, s)
			}
		}
	}
	for _, f := range e.desk.cat.Fitments {
		if e.focus.Part == nil && !f.When.Concerns(e.Model) {
			continue
		}
		for _, c := range f.Cells {
			if c.Position == pos && !known[c] && e.looksAt(c) {
				out = append(out, Standing{Cell: c, SetAside: f.When.SetAside, Misses: e.misses(place.Exists, &f.When)})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Standing) int { return b.rank() - a.rank() })
	return out, true
}

// rank puts cells that decide first, then those that match, then the others.
func (s *Standing) rank() int {
	switch {
	case len(s.Decides) > 0:
		return 2
	case len(s.Overruled) > 0:
		return 1
	}
	return 0
}

// looksAt tells whether a cell is in focus.
func (e *explainer) looksAt(c *model.FitCell) bool {
	return e.focus.Part == nil || offersPart(c, e.focus.Part)
}

// standing says of a cell that matches where it decides and where others do.
func (e *explainer) standing(place *decide.Mount, level int, c *decide.Cell) (s Standing, exact bool) {
	s.Cell = c.FitCell
	matches := e.Intersect(place.Exists, e.Box(c.Box))
	decides := place.Decides(&place.Levels[level], c)
	if s.Decides, exact = e.say(decides); !exact {
		return s, false
	}
	over := e.Minus(matches, decides)
	if s.Overruled, exact = e.say(over); !exact || over == space.Empty {
		return s, exact
	}
	for i := range level {
		for _, h := range place.Levels[i].Cells {
			if e.Meets(e.Intersect(over, place.Levels[i].Open), h.Box) {
				s.By = append(s.By, h.FitCell)
			}
		}
	}
	slices.SortFunc(s.By, func(a, b *model.FitCell) int { return cell.Compare(a.At, b.At) })
	return s, true
}
