package fleet

import (
	"maps"
	"slices"
	"strings"
)

// Few is a question that settles vehicles, once those before it are answered.
type Few struct {
	Column   string
	Effort   int   // the least that it takes to see on any of the vehicles
	Vehicles int64 // that it leaves nothing open of, with those before it
	Total    int64 // with what those before it settle
}

// class is vehicles that the same questions settle.
type class struct {
	open  []string // columns that are not answered yet
	count int64
}

// few picks one question after another: that which leaves nothing open of most vehicles, of equals
// what takes the least to see. Where none settles a vehicle by itself, that which most wait for.
func (f *Fleet) few() {
	classes, effort := f.classes()
	var total int64
	for len(classes) > 0 {
		column := best(classes, effort)
		var settled int64
		var left []class
		for _, c := range classes {
			c.open = slices.DeleteFunc(c.open, func(o string) bool { return o == column })
			if len(c.open) == 0 {
				settled += c.count
				continue
			}
			left = append(left, c)
		}
		total += settled
		f.Few = append(f.Few, Few{column, effort[column], settled, total})
		classes = left
	}
}

// classes gives what is open on how many vehicles, and what it takes to see each column.
func (f *Fleet) classes() ([]class, map[string]int) {
	effort := map[string]int{}
	by := map[string]*class{}
	for _, g := range f.groups {
		var open []string
		for _, a := range g.asks {
			if a.Column == "" {
				continue
			}
			open = append(open, a.Column)
			if e, known := effort[a.Column]; !known || a.Effort < e {
				effort[a.Column] = a.Effort
			}
		}
		if open == nil {
			continue
		}
		slices.Sort(open)
		key := strings.Join(open, "\x00")
		if by[key] == nil {
			by[key] = &class{open: open}
		}
		by[key].count += g.count
	}
	var out []class
	for _, key := range slices.Sorted(maps.Keys(by)) {
		out = append(out, *by[key])
	}
	return out, effort
}

func best(classes []class, effort map[string]int) string {
	settles, waits := map[string]int64{}, map[string]int64{}
	for _, c := range classes {
		for _, o := range c.open {
			waits[o] += c.count
		}
		if len(c.open) == 1 {
			settles[c.open[0]] += c.count
		}
	}
	out := ""
	for _, o := range slices.Sorted(maps.Keys(waits)) {
		switch {
		case out == "" || settles[o] > settles[out]:
			out = o
		case settles[o] < settles[out]:
		case settles[o] > 0 && effort[o] < effort[out]:
			out = o
		case settles[o] == 0 && (waits[o] > waits[out] || waits[o] == waits[out] && effort[o] < effort[out]):
			out = o
		}
	}
	return out
}

// Counts says how many vehicles there are, and how many of them have nothing open.
func (f *Fleet) Counts() (vehicles, settled int64) {
	for _, g := range f.groups {
		vehicles += g.count
		if g.settled() {
			settled += g.count
		}
	}
	return vehicles, settled
}
