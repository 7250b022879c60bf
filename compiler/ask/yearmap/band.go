package yearmap

import (
	"slices"

	"ferrule/compiler/model"
)

// Band is the rows of a chart that are the same to whoever draws it.
type Band struct {
	Values []int
	Rows   []Lane
}

// Bands gives the rows of a chart, those whose squares are the same year by year as one, in the order
// of the first of each.
func (c *Chart) Bands(same func(a, b Square) bool) []Band {
	var out []Band
	for _, l := range c.Rows {
		i := slices.IndexFunc(out, func(b Band) bool { return slices.EqualFunc(b.Rows[0].Squares, l.Squares, same) })
		if i < 0 {
			i, out = len(out), append(out, Band{})
		}
		out[i].Values, out[i].Rows = append(out[i].Values, l.Value), append(out[i].Rows, l)
	}
	return out
}

// Stretch is a range of years without holes of which the same is said.
type Stretch struct {
	model.Span
	First int // the place of its first year among the years
}

// RunsOf gives the longest ranges of years that follow on each other with the same in them.
func RunsOf[T any](years []int, in []T, same func(a, b T) bool) (out []Stretch) {
	for i, s := range in {
		last := len(out) - 1
		if last >= 0 && out[last].To == years[i]-1 && same(in[out[last].First], s) {
			out[last].To = years[i]
			continue
		}
		out = append(out, Stretch{model.Span{From: years[i], To: years[i]}, i})
	}
	return out
}
