package decide

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Exist gives the vehicles that exist as boxes of the platform's space.
func (g *Guide) Exist() []space.Box {
	out := make([]space.Box, len(g.Vehicles))
	for i, b := range g.Vehicles {
		out[i] = g.Box(b)
	}
	return out
}

// Box gives a box in the words of the catalogue as one of the platform's space.
func (g *Guide) Box(b model.Box) space.Box {
	var out space.Box
	if b.Years != nil {
		var in []int
		for i, y := range g.Platform.Years {
			if slices.ContainsFunc(b.Years, func(s model.Span) bool { return s.From <= y && y <= s.To }) {
				in = append(in, i)
			}
		}
		out = out.With(0, space.SetOf(in...))
	}
	for _, t := range b.Traits {
		out = out.With(t.Trait.Index+1, t.Values)
	}
	return out
}
