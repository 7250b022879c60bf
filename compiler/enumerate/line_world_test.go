package enumerate

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"sort"
	"time"
)

// reach is a run of numbers behind the same letters, or of days since 1970, both ends in.
type reach struct {
	letters  string
	low, top int64
}

// lineCond is a condition on a trait on a line, as it is meant.
type lineCond struct {
	form string // "" for blank, any, list, not
	runs []reach
	na   bool
	text any

	outside bool // names a value that no platform has, and not after `not`
}

func (c lineCond) inside(v reach) bool {
	return slices.ContainsFunc(c.runs, func(r reach) bool { return r.letters == v.letters && r.low <= v.low && v.low <= r.top })
}

// lineValue is what a configuration has of such a trait: a stretch, or nothing.
type lineValue struct {
	reach
	na bool
}

func (c lineCond) meets(v lineValue) bool {
	switch in := v.na && c.na || !v.na && c.inside(v.reach); c.form {
	case "list":
		return in
	case "not":
		return !in
	}
	return true
}

func (c lineCond) states(v lineValue) bool {
	switch c.form {
	case "":
		return v.na
	case "any":
		return !v.na
	case "not":
		return !v.na && !c.inside(v.reach)
	}
	return c.meets(v)
}

// lineRow is a row of any sheet: conditions, and what it says.
type lineRow struct {
	years    [2]int // 0 for blank
	platform int    // -1 for any
	axle     int    // -1 for blank
	on       []lineCond
	line     int // in its sheet
	road     int64
	rank     int
	says     string
	trait    int // of Breaks: of lines, or len(lines) for Axle
	value    lineCond
	axles    int
}

type lineTrait struct {
	name, kind string
	extent     [][]reach // by platform
}

type lineCar struct {
	year, axle int
	vals       []lineValue
}

type lineCatalogue struct {
	*rand.Rand
	lines                  []*lineTrait
	vehicles, breaks, fits []*lineRow
	huge                   bool
}

const (
	linePlatforms, lineFirst, lineLast = 2, 2010, 2013
)

func lineAxles() []string { return []string{"Solid", "Split"} }

func (r *lineRow) about(p int) bool { return r.platform < 0 || r.platform == p }

func (r *lineRow) meets(p int, g lineCar, how func(lineCond, lineValue) bool) bool {
	if !r.about(p) || r.years[0] > 0 && (g.year < r.years[0] || g.year > r.years[1]) || r.axle >= 0 && r.axle != g.axle {
		return false
	}
	for i, c := range r.on {
		if !how(c, g.vals[i]) {
			return false
		}
	}
	return true
}

func (r *lineRow) names(lines int, g lineCar) bool {
	if r.trait == lines {
		return r.axles == g.axle
	}
	v := g.vals[r.trait]
	return !v.na && r.value.states(v)
}

// conditions lists all that is said about a platform on one trait.
func (c *lineCatalogue) conditions(p, trait int) []lineCond {
	var out []lineCond
	for _, r := range slices.Concat(c.vehicles, c.breaks, c.fits) {
		if r.about(p) {
			out = append(out, r.on[trait])
			if slices.Contains(c.breaks, r) && r.trait == trait {
				out = append(out, r.value)
			}
		}
	}
	return out
}

func lineSigned(all []lineCond, at reach) string {
	out := make([]byte, len(all))
	for i, c := range all {
		out[i] = '0'
		if c.inside(at) {
			out[i] = '1'
		}
	}
	return string(out)
}

// stretches finds the longest runs that no condition tells apart, from the ends of what is said.
// Where slow it looks at one number after another instead.
func (c *lineCatalogue) stretches(p, trait int, slow bool) []reach {
	all := c.conditions(p, trait)
	var out []reach
	for _, e := range c.lines[trait].extent[p] {
		starts := []int64{e.low}
		for n := e.low; slow && n <= e.top; n++ {
			starts = append(starts, n)
		}
		for _, k := range all {
			for _, r := range k.runs {
				starts = append(starts, r.low, r.top+1)
			}
		}
		slices.Sort(starts)
		for _, n := range slices.Compact(starts) {
			if n < e.low || n > e.top {
				continue
			}
			last := len(out) - 1
			at := reach{e.letters, n, e.top}
			if last >= 0 && out[last].letters == e.letters && out[last].low >= e.low {
				if lineSigned(all, out[last]) == lineSigned(all, at) {
					continue
				}
				out[last].top = n - 1
			}
			out = append(out, at)
		}
	}
	return out
}

// lineWorld is what exists of a platform, as Vehicles state it and as Breaks leave it.
type lineWorld struct {
	stated, left []lineCar
	road         []float64
}

func (g lineCar) weight() float64 {
	out := 1.0
	for _, v := range g.vals {
		if !v.na {
			out *= float64(v.top - v.low + 1)
		}
	}
	return out
}

// allowed reads Breaks by their definition; lost is the trait that rules the vehicle out, or -1.
func (c *lineCatalogue) allowed(p int, g lineCar, trait int) bool {
	named := false
	for _, r := range c.breaks {
		if r.about(p) && r.trait == trait && r.names(len(c.lines), g) {
			named = true
			if r.meets(p, g, lineCond.meets) {
				return true
			}
		}
	}
	return !named
}

func (c *lineCatalogue) lineWorlds() []*lineWorld {
	var out []*lineWorld
	weights := map[*lineRow]float64{}
	for p := range linePlatforms {
		w := &lineWorld{}
		for _, g := range c.candidates(p) {
			rows := slices.DeleteFunc(slices.Clone(c.vehicles), func(r *lineRow) bool { return !r.meets(p, g, lineCond.states) })
			if len(rows) == 0 {
				continue
			}
			w.stated = append(w.stated, g)
			ok := true
			for t := range len(c.lines) + 1 {
				ok = ok && c.allowed(p, g, t)
			}
			if !ok {
				continue
			}
			w.left = append(w.left, g)
			for _, r := range rows {
				weights[r] += g.weight()
			}
		}
		out = append(out, w)
	}
	for p, w := range out {
		for _, g := range w.left {
			road := 0.0
			for _, r := range c.vehicles {
				if r.meets(p, g, lineCond.states) {
					road += float64(r.road) * g.weight() / weights[r]
				}
			}
			w.road = append(w.road, road)
		}
	}
	return out
}

func (c *lineCatalogue) candidates(p int) []lineCar {
	out := []lineCar{}
	for y := lineFirst; y <= lineLast; y++ {
		out = append(out, lineCar{year: y})
	}
	for t := range c.lines {
		var values []lineValue
		for _, s := range c.stretches(p, t, false) {
			values = append(values, lineValue{reach: s})
		}
		var next []lineCar
		for _, g := range out {
			for _, v := range append(values, lineValue{na: true}) {
				next = append(next, lineCar{g.year, 0, append(slices.Clone(g.vals), v)})
			}
		}
		out = next
	}
	var all []lineCar
	for _, g := range out {
		for a := range lineAxles() {
			all = append(all, lineCar{g.year, a, g.vals})
		}
	}
	return all
}

// outcome gives what the rows of the highest precedence that hold say.
func (c *lineCatalogue) outcome(p int, g lineCar) (outcome, says string) {
	var said []string
	best := 0
	for _, r := range c.fits {
		if r.meets(p, g, lineCond.meets) {
			if len(said) == 0 || r.rank > best {
				best, said = r.rank, nil
			}
			if r.rank == best {
				said = append(said, r.says)
			}
		}
	}
	sort.Strings(said)
	switch said = slices.Compact(said); {
	case len(said) == 0:
		return "gap", ""
	case len(said) > 1:
		return "conflict", ""
	case said[0] == "planned":
		return "planned", ""
	case said[0][:1] == "n":
		return "none", ""
	}
	return "fitted", said[0]
}

func lineDay(n int64) string { return time.Unix(n*86400, 0).UTC().Format("2006-01-02") }

func (t *lineTrait) write(r reach, n int64) string {
	if t.kind == "date" {
		return lineDay(n)
	}
	return fmt.Sprintf("%s%d", r.letters, n)
}

func (g lineCar) id() string { return fmt.Sprint(g.year, g.axle, g.vals) }
