package guide

import (
	"fmt"
	"slices"
	"strconv"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// strip shows which line of a table holds in which years: a lane for each value of the
// one trait that the table asks besides the year, or a single lane. Stretches that follow on
// each other share a lane where the same lines hold.
type strip struct {
	Lanes []lane
	Ticks []tick
}

type lane struct {
	Value *answer // nil: any vehicle
	Bars  []bar
}

// bar is a run of years that one line holds in. Places are in per cent of the width.
type bar struct {
	From, Wide, Text string
	Line             int
	Kind             string // of its fit
}

type tick struct{ At, Year string }

// tickApart is how far two years that are written stand apart at least, in per cent.
const tickApart = 14

// newStrip draws a table that asks for the year and one more trait at most; nil for
// another, and where there is not more than one range of years to be seen.
func newStrip(pl *model.Platform, cases []decide.Case, t *table, has occurring) *strip {
	traits := traitsOf(wheres(has, cases))
	begins := beginnings(pl, cases)
	if len(traits) > 1 || len(begins) < 2 || len(cases) < 2 || len(cases) > 24 || len(pl.Years) < 2 {
		return nil
	}
	out := &strip{}
	if len(traits) == 0 {
		out.Lanes = []lane{{Bars: bars(pl, cases, t, func(*decide.Case) bool { return true })}}
	} else {
		out.Lanes = lanes(pl, cases, t, traits[0], has)
	}
	last := -100.0
	for _, y := range begins {
		if at := share(pl, y); at-last >= tickApart && at <= 100-tickApart/2 {
			out.Ticks = append(out.Ticks, tick{percent(at), strconv.Itoa(y)})
			last = at
		}
	}
	return out
}

func wheres(has occurring, cases []decide.Case) []where {
	out := make([]where, len(cases))
	for i := range cases {
		out[i] = has.where(cases[i].Where)
	}
	return out
}

func lanes(pl *model.Platform, cases []decide.Case, t *table, by *model.Trait, has occurring) []lane {
	var out []lane
	var in []int // what the last lane is for
	here := has.sets[by].Trait
	for v := range has.sets[by].Values.Values() {
		l := lane{Bars: bars(pl, cases, t, func(c *decide.Case) bool {
			i := slices.IndexFunc(c.Where.Traits, func(s model.TraitSet) bool { return s.Trait.Declared() == by })
			return i < 0 || c.Where.Traits[i].Values.Has(v)
		})}
		if l.Bars == nil {
			in = nil
			continue
		}
		if n := len(out) - 1; in != nil && follows(here, v) && slices.Equal(out[n].Bars, l.Bars) {
			out, in = out[:n], append(in, v)
		} else {
			in = []int{v}
		}
		l.Value = laneOf(here, in)
		out = append(out, l)
	}
	return out
}

// laneOf names a value, or stretches that follow on each other.
func laneOf(t *model.Trait, values []int) *answer {
	names, absent := t.Is(values...).Names()
	if absent {
		return &answer{Absent: true}
	}
	return &answer{Name: names[0]}
}

// bars gives the runs of the platform's years that each of some cases holds in.
func bars(pl *model.Platform, cases []decide.Case, t *table, in func(*decide.Case) bool) []bar {
	var out []bar
	for i := range cases {
		if !in(&cases[i]) {
			continue
		}
		for _, r := range runs(pl, cases[i].Where.Years) {
			from, to := share(pl, r.From), share(pl, r.To+1)
			out = append(out, bar{percent(from), percent(to - from), percent((from + to) / 2), i + 1, t.Rows[i].Fit.Kind})
		}
	}
	return out
}

// runs gives spans of years within the platform's; none is all of them.
func runs(pl *model.Platform, spans []model.Span) []model.Span {
	first, last := pl.Years[0], pl.Years[len(pl.Years)-1]
	if spans == nil {
		return []model.Span{{From: first, To: last}}
	}
	var out []model.Span
	for _, s := range spans {
		if s = (model.Span{From: max(s.From, first), To: min(s.To, last)}); s.From <= s.To {
			out = append(out, s)
		}
	}
	return out
}

// beginnings lists the years in which a run begins.
func beginnings(pl *model.Platform, cases []decide.Case) []int {
	var out []int
	for i := range cases {
		for _, r := range runs(pl, cases[i].Where.Years) {
			if !slices.Contains(out, r.From) {
				out = append(out, r.From)
			}
		}
	}
	slices.Sort(out)
	return out
}

// share says where a year begins, in per cent of all years from the first to the last.
func share(pl *model.Platform, year int) float64 {
	first, last := pl.Years[0], pl.Years[len(pl.Years)-1]
	return 100 * float64(year-first) / float64(last-first+1)
}

func percent(p float64) string { return fmt.Sprintf("%.4g%%", p) }
