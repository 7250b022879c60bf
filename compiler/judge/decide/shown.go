package decide

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// shown numbers the cases anew: those that say the same in public share a class,
// numbered in the order of the cases, which have the index of their region so far. It
// gives the configurations of each class, and last those of the region after all
// classes.
func (pl *Mount) shown(kept []class, regions []space.Region, cases []Case) []space.Region {
	var say []Case
	var out []space.Region
	number := make([]int, len(kept))
	for i := range number {
		number[i] = -1
	}
	for i := range cases {
		k := cases[i].Class
		if number[k] < 0 {
			says := public(kept[k].words)
			n := slices.IndexFunc(say, func(o Case) bool { return o.Same(&says) })
			if n < 0 {
				n = len(say)
				say, out = append(say, says), append(out, space.Empty)
			}
			number[k] = n
			out[n] = pl.Union(out[n], regions[k])
		}
		cases[i].Class = number[k]
	}
	return append(out, regions[len(kept)])
}

// public is what the world learns of a case. Of one that is not settled that is all;
// what is planned is not told, nor how many are not fitted.
func public(c Case) Case {
	switch {
	case c.Withheld() || c.Outcome == model.Conflict:
		return Case{Outcome: model.Conflict, Unsettled: true}
	case c.Outcome == model.Gap, c.Outcome == model.Planned:
		return Case{Outcome: c.Outcome}
	case c.Outcome != model.Fitted || c.With != nil:
		c.Quantity = 0
	}
	c.Cells = nil
	return c
}
