package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

var sideQuantity = &Check{
	Kind: finding.Kind{Code: finding.SideQuantity, Severity: "warning",
		Summary: "a pair of positions takes more of a part on one side than on the other",
		Doc:     "Left and right may need different parts, but seldom different quantities of them. Choices are compared in their order, the first with the first; choices of unlike numbers of parts, and kits, which say for themselves how many they hold, are not. The finding is named after the position that is declared first.",
		Before:  "Fitment!D4  Damper left HD-50   E4  Damper right 2 x HD-51",
		After:   "Fitment!D4  Damper left HD-50   E4  Damper right HD-51"},
	Position: func(p *Position) {
		other := p.opposite()
		if other == nil {
			return
		}
		region := space.Empty
		for _, a := range quantities(p.Mount) {
			for _, b := range quantities(other) {
				if uneven(a.counts, b.counts) {
					region = p.Union(region, p.Intersect(a.where, b.where))
				}
			}
		}
		first, ok := p.First(region)
		if !ok {
			return
		}
		p.reportSides(finding.Finding{Code: finding.SideQuantity, Severity: finding.Warning, Position: p.Mount.Position.Name,
			Message: fmt.Sprintf("%s and %s, opposite, take different quantities on these vehicles of %s: %q and %q",
				p.Mount.Position.Name, other.Position.Name, p.Model.Name, taken(p.Mount, first), taken(other, first)),
			Cells: append(deciding(p.Mount, region), deciding(other, region)...),
			Fix:   "correct a quantity, in the cells or in Positions; accept the finding where the sides do differ",
		}, region, p.Mount, other)
	},
}

// takes is where a position takes the same quantities.
type takes struct {
	counts [][]int // of each choice, ascending; empty for one that holds a kit
	where  space.Region
}

// quantities splits where parts are fitted at a position by their quantities.
func quantities(pl *decide.Mount) []takes {
	var out []takes
	for i := range pl.Levels {
		for _, v := range pl.Variants {
			at := pl.Intersect(pl.Outcome[model.Fitted], v.Where)
			for _, c := range pl.Levels[i].Cells {
				where := pl.Intersect(at, pl.Decides(&pl.Levels[i], c))
				if where == space.Empty || c.Fits.With != nil {
					continue
				}
				t := takes{counts(filled(c.Fits, v.Row.Quantity)), where}
				if k := slices.IndexFunc(out, t.same); k >= 0 {
					out[k].where = pl.Union(out[k].where, where)
				} else {
					out = append(out, t)
				}
			}
		}
	}
	return out
}

func (t takes) same(o takes) bool {
	return slices.EqualFunc(t.counts, o.counts, slices.Equal[[]int])
}

// taken says what is fitted at a position of one configuration, with its quantities.
func taken(pl *decide.Mount, configuration []int) string {
	at := space.Point(configuration)
	for i := range pl.Levels {
		for _, c := range pl.Levels[i].Cells {
			for _, v := range pl.Variants {
				if pl.Meets(pl.Levels[i].Open, at) && pl.Meets(v.Where, at) && c.Box.Has(configuration) {
					return Says(filled(c.Fits, v.Row.Quantity))
				}
			}
		}
	}
	panic("check: no cell decides a configuration that is fitted")
}

// filled is what a cell says where the position takes a quantity, with all quantities.
func filled(f *model.Fits, quantity int) *model.Fits {
	out := &model.Fits{Outcome: f.Outcome}
	for _, a := range f.Alternatives {
		out.Alternatives = append(out.Alternatives, a.Filled(quantity))
	}
	return out
}

func counts(f *model.Fits) [][]int {
	out := make([][]int, len(f.Alternatives))
	for i, a := range f.Alternatives {
		for _, item := range a {
			if item.Part.Kit() {
				out[i] = nil
				break
			}
			out[i] = append(out[i], item.Quantity)
		}
		slices.Sort(out[i])
	}
	return out
}

// uneven tells whether two choices that can be compared take different quantities.
func uneven(a, b [][]int) bool {
	for i := range min(len(a), len(b)) {
		if len(a[i]) == len(b[i]) && !slices.Equal(a[i], b[i]) {
			return true
		}
	}
	return false
}
