package pick

import (
	"fmt"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Near is a way in which the vehicle asked about exists after all: with other answers
// to as few questions as can be.
type Near struct {
	Changes []Change
	Example *model.Example // the first such vehicle
}

// Change is one answer that has to be another.
type Change struct {
	Trait   *model.Trait // nil: the model year
	Told    model.Box
	Instead model.Box // the values that occur with all other answers as they are
}

// missing says why no vehicle is such, and which are nearest.
func (d *Lookup) missing(l *List, q *Query) error {
	p, err := d.whole(q)
	if err != nil {
		return fmt.Errorf("the vehicles of %s are too irregular to be worked out", q.Platform.Name)
	}
	l.Unbuilt, l.Listed = unbuilt(p, q)
	l.Near = q.nearest(p)
	return nil
}

// nearest finds the fewest answers that keep the vehicle from existing.
func (q *Query) nearest(p *decide.Platform) []Near {
	box := p.Bounds(&q.When)
	var told []int // traits of the space that are answered
	for t, set := range box {
		if set != nil {
			told = append(told, t)
		}
	}
	for n := 1; n <= len(told); n++ {
		var out []Near
		choose(told, n, nil, func(drop []int) {
			if near, ok := q.without(p, box, drop); ok {
				out = append(out, near)
			}
		})
		if len(out) > 0 {
			return out
		}
	}
	return nil
}

// without takes some answers back; false where no vehicle has the others either.
func (q *Query) without(p *decide.Platform, box space.Box, drop []int) (Near, bool) {
	wider := slices.Clone(box)
	for _, t := range drop {
		wider[t] = nil
	}
	first, ok := p.FirstIn(p.All, wider)
	if !ok {
		return Near{}, false
	}
	near := Near{Example: p.ExampleOf(first)}
	for _, t := range drop {
		told := only(p, t, box[t])
		if t == 0 {
			told = model.Box{Years: q.years()}
		}
		near.Changes = append(near.Changes, Change{traitOf(p, t), told, only(p, t, p.ValuesIn(p.All, wider, t))})
	}
	return near, true
}

// choose gives every n of the traits, in their order, behind those that are chosen.
func choose(from []int, n int, chosen []int, yield func([]int)) {
	if n == 0 {
		yield(chosen)
		return
	}
	for i := 0; i+n <= len(from); i++ {
		choose(from[i+1:], n-1, append(slices.Clone(chosen), from[i]), yield)
	}
}
