package offer

import (
	"slices"

	"ferrule/compiler/ask/yearmap"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Glance is in which years a part is offered at a position, whether by itself or in a kit: years by
// the values of the trait that tells most apart. It is exact, square by square.
type Glance struct {
	By   model.TraitSet // the trait with the values that occur on the platform; no trait: one row
	Rows []GlanceRow
}

// GlanceRow is vehicles with certain values of the trait, by years.
type GlanceRow struct {
	Of   model.TraitSet // no trait: all vehicles
	Runs []GlanceRun
}

// GlanceRun is a range of years with what is true in them.
type GlanceRun struct {
	model.Span
	State GlanceState
}

// GlanceState is how many of some vehicles a part is offered to.
type GlanceState int

// What is true of some vehicles.
const (
	Nobody GlanceState = iota // no such vehicle exists
	Other                     // it is offered to none of them
	Some
	Here // it is offered to all of them
)

// glances draws the parts of one answer; parts that are offered in the same cases share a picture.
type glances struct {
	guide  *decide.Guide
	ground *yearmap.Ground
	drawn  []drawnGlance
}

type drawnGlance struct {
	in   []int
	seen *Glance
}

// of draws the cases that offer a part; nil where that is all vehicles in all years, or too irregular.
func (d *glances) of(a *decide.Answer, in []int) *Glance {
	i := slices.IndexFunc(d.drawn, func(o drawnGlance) bool { return slices.Equal(o.in, in) })
	if i < 0 {
		i, d.drawn = len(d.drawn), append(d.drawn, drawnGlance{in, d.draw(a, in)})
	}
	return d.drawn[i].seen
}

func (d *glances) draw(a *decide.Answer, in []int) *Glance {
	if d.ground == nil {
		return nil
	}
	offered := make([]bool, len(a.Cases))
	for _, c := range in {
		offered[c] = true
	}
	chart := d.ground.Chart(func(c int) int {
		if offered[c] {
			return 1
		}
		return yearmap.AwayIs
	})
	state := func(s yearmap.Square) GlanceState { return stateOf(s, offered) }
	same := func(x, y yearmap.Square) bool { return state(x) == state(y) }
	out := &Glance{}
	if chart.Trait != nil {
		out.By = d.guide.Traits[slices.IndexFunc(d.guide.Traits, func(t model.TraitSet) bool { return t.Trait == chart.Trait })]
	}
	bare := true
	for _, b := range chart.Bands(same) {
		row := GlanceRow{}
		if chart.Trait != nil {
			row.Of = chart.Trait.Is(b.Values...)
		}
		for _, r := range yearmap.RunsOf(chart.Years, b.Rows[0].Squares, same) {
			row.Runs = append(row.Runs, GlanceRun{r.Span, state(b.Rows[0].Squares[r.First])})
			bare = bare && row.Runs[len(row.Runs)-1].State == Here
		}
		out.Rows = append(out.Rows, row)
	}
	if bare {
		return nil
	}
	return out
}

func stateOf(s yearmap.Square, offered []bool) GlanceState {
	n := 0
	for _, c := range s.Cases {
		if offered[c] {
			n++
		}
	}
	switch {
	case s.Nobody():
		return Nobody
	case n == 0:
		return Other
	case n == len(s.Cases) && !s.Away:
		return Here
	}
	return Some
}
