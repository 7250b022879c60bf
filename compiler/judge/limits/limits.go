// Package limits works out what limits say: which are about which part, where a fitment cell
// offers one, what the Facts sheets state of the vehicles, and under which of these values a
// limit may be broken.
package limits

import (
	"cmp"
	"slices"

	"ferrule/compiler/formula"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Index holds, for every part, the limits that are about it. It is made once and read
// by all platforms.
type Index struct {
	of      map[*model.Part][]*Subject
	at      []bool // positions, by index, at which a limit can hold
	divides bool   // some limit may have no value
}

// Subject is one limit on one part.
type Subject struct {
	*model.Limit
	Part    *model.Part
	values  []formula.Value // by the rule's Uses: the part's figures; facts are blank
	Facts   []Use
	Lacking []*model.Figure // that the part does not state
}

// Use is a fact that a rule uses: its place among the rule's uses, and its index.
type Use struct{ Slot, Fact int }

// New gives nil where there is no limit.
func New(cat *model.Catalogue) *Index {
	if len(cat.Limits) == 0 {
		return nil
	}
	out := &Index{of: map[*model.Part][]*Subject{}, at: make([]bool, len(cat.Positions))}
	for _, l := range cat.Limits {
		if l.Rule == nil {
			continue // what is wrong with it has been told
		}
		out.divides = out.divides || l.Rule.Divides()
		for i, p := range cat.Positions {
			out.at[i] = out.at[i] || l.Holds(p)
		}
		for _, p := range cat.Parts {
			if l.About(p) {
				out.of[p] = append(out.of[p], newSubject(cat, l, p))
			}
		}
	}
	return out
}

// About gives the limits that are about a part.
func (l *Index) About(p *model.Part) []*Subject {
	if l == nil {
		return nil
	}
	return l.of[p]
}

func newSubject(cat *model.Catalogue, l *model.Limit, p *model.Part) *Subject {
	s := &Subject{Limit: l, Part: p, values: make([]formula.Value, len(l.Rule.Uses))}
	for i, id := range l.Rule.Uses {
		figure, fact := cat.Term(id)
		if fact != nil {
			s.Facts = append(s.Facts, Use{i, fact.Index})
			continue
		}
		if r, ok := p.Reading(figure); ok {
			s.values[i] = r.Value
		} else {
			s.Lacking = append(s.Lacking, figure)
		}
	}
	return s
}

// Claim is a fitment cell that offers a part which a limit is about.
type Claim struct {
	*Subject
	Level *decide.Level
	Cell  *decide.Cell
}

// Can tells whether any limit can hold at a position.
func (l *Index) Can(pos *model.Position) bool { return l != nil && l.at[pos.Index] }

// Divides tells whether some limit may have no value.
func (l *Index) Divides() bool { return l != nil && l.divides }

// Claims gives the claims of a position whose cells decide somewhere, limit by limit.
func (l *Index) Claims(place *decide.Mount) []Claim {
	if !l.Can(place.Position) {
		return nil
	}
	var out []Claim
	for i := range place.Levels {
		level := &place.Levels[i]
		for _, c := range level.Cells {
			if !place.Meets(level.Open, c.Box) {
				continue
			}
			c.Fits.Parts(func(part *model.Part) {
				for _, s := range l.of[part] {
					if s.Holds(place.Position) {
						out = append(out, Claim{s, level, c})
					}
				}
			})
		}
	}
	slices.SortStableFunc(out, func(a, b Claim) int { return cmp.Compare(a.Index, b.Index) })
	return out
}

// With gives the values of the rule's uses where the facts have those chosen.
func (s *Subject) With(p *decide.Platform, chosen []int) []formula.Value {
	values := slices.Clone(s.values)
	for i, u := range s.Facts {
		values[u.Slot] = p.Facts[u.Fact].Values[chosen[i]]
	}
	return values
}
