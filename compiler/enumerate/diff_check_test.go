package enumerate

import (
	"fmt"
	"slices"
	"sort"
)

// diffChecker holds a printed diff against the enumeration.
type diffChecker struct {
	*differ
	out      *diffOutput
	problems []string
}

func (k *diffChecker) failf(format string, args ...any) {
	if len(k.problems) < 8 {
		k.problems = append(k.problems, fmt.Sprintf(format, args...))
	}
}

// checkDiff lists every disagreement.
func checkDiff(old, new *catalogue, out *diffOutput) []string {
	k := &diffChecker{differ: newDiffer(old, new, out.names()), out: out}
	known := map[string]bool{}
	for _, p := range k.pairings() {
		known[p.name] = true
		all := k.joints(p)
		k.splits(p)
		k.fleets(p, all)
		k.changes(p, all)
	}
	for _, c := range out.Changes {
		if !known[c.Platform] {
			k.failf("a change on %s, which is no platform", c.Platform)
		}
	}
	for _, v := range out.Vehicles {
		if !known[v.Platform] {
			k.failf("vehicles of %s, which is no platform", v.Platform)
		}
	}
	if len(out.Irregular) > 0 {
		k.failf("something is not compared")
	}
	k.sums()
	return k.problems
}

// in tells whether a box holds a joint configuration.
func (b box) in(p *pairing, j jointly) bool {
	if len(b.Years) > 0 && !slices.ContainsFunc(b.Years, func(s [2]int) bool { return s[0] <= j.year && j.year <= s[1] }) {
		return false
	}
	for name, values := range b.Traits {
		i := slices.IndexFunc(p.axes, func(x axis) bool { return x.name == name })
		if i < 0 {
			return false
		}
		has := slices.ContainsFunc(values, func(v *string) bool { return v == nil && j.values[i] == "" || v != nil && *v == j.values[i] })
		if !has {
			return false
		}
	}
	return true
}

func inAny(where []box, p *pairing, j jointly) bool {
	return slices.ContainsFunc(where, func(b box) bool { return b.in(p, j) })
}

func (k *diffChecker) splits(p *pairing) {
	var want, got []string
	for _, x := range p.axes {
		if p.a != nil && p.b != nil && x.inA != x.inB {
			in := "new"
			if x.inA {
				in = "old"
			}
			want = append(want, x.name+" "+in)
		}
	}
	for _, s := range k.out.Splits {
		if s.Platform == p.name {
			got = append(got, s.Trait+" "+s.In)
		}
	}
	if sorted(want) != sorted(got) {
		k.failf("%s: told apart by %v, want %v", p.name, got, want)
	}
}

// shared is what both catalogues see of a configuration.
func (p *pairing) shared(j jointly) string {
	out := fmt.Sprint(j.year)
	for i, x := range p.axes {
		if x.inA && x.inB {
			out += "/" + j.values[i]
		}
	}
	return out
}

// seen gives what both catalogues see of the configurations that each has.
func (p *pairing) seen(all []jointly) (inA, inB map[string]bool) {
	inA, inB = map[string]bool{}, map[string]bool{}
	for _, j := range all {
		if j.a >= 0 {
			inA[p.shared(j)] = true
		}
		if j.b >= 0 {
			inB[p.shared(j)] = true
		}
	}
	return inA, inB
}

// fleets holds vehicles that are in one catalogue only against what is told.
func (k *diffChecker) fleets(p *pairing, all []jointly) {
	inA, inB := p.seen(all)
	for _, kind := range []string{"appeared", "vanished"} {
		index, w, other := func(j jointly) int { return j.b }, p.b, inA
		if kind == "vanished" {
			index, w, other = func(j jointly) int { return j.a }, p.a, inB
		}
		set := map[int]bool{}
		for _, j := range all {
			if i := index(j); i >= 0 && !other[p.shared(j)] {
				set[i] = true
			}
		}
		told := 0
		for _, v := range k.out.Vehicles {
			if v.Kind != kind || v.Platform != p.name {
				continue
			}
			told++
			if v.Whole != (p.a == nil || p.b == nil) {
				k.failf("%s %s: whole is %v", kind, p.name, v.Whole)
			}
			if v.Configurations != len(set) || !near(v.OnTheRoad, shareOf(w, set)) {
				k.failf("%s %s: %d configurations, %v on the road; want %d, %v", kind, p.name, v.Configurations, v.OnTheRoad, len(set), shareOf(w, set))
			}
			for _, j := range all {
				if i := index(j); i >= 0 && inAny(v.Where, p, j) != set[i] {
					k.failf("%s %s: the boxes are wrong about %v", kind, p.name, j)
				}
			}
			if !slices.ContainsFunc(all, func(j jointly) bool { return index(j) >= 0 && set[index(j)] && p.is(v.Example, j) }) {
				k.failf("%s %s: the example is none of them", kind, p.name)
			}
		}
		if told != min(1, len(set)) {
			k.failf("%s %s: told %d times, %d configurations", kind, p.name, told, len(set))
		}
	}
}

func shareOf(w *world, set map[int]bool) float64 {
	var all []int
	for i := range set {
		all = append(all, i)
	}
	sort.Ints(all)
	return w.share(all)
}

// is tells whether an example is a configuration. Traits that it leaves out may be any.
func (p *pairing) is(e example, j jointly) bool {
	if e.Year != j.year {
		return false
	}
	for i, x := range p.axes {
		if v, told := e.Traits[x.name]; told && (v == nil) != (j.values[i] == "") || told && v != nil && *v != j.values[i] {
			return false
		}
	}
	return true
}

// positions pairs the positions of both: indexes, -1 for none.
func (k *diffChecker) positions() map[string][2]int {
	out := map[string][2]int{}
	for i, pos := range k.new.positions {
		out[pos.name] = [2]int{-1, i}
	}
	for i, pos := range k.old.positions {
		name := k.names.now("position", "", pos.name)
		at, ok := out[name]
		if !ok {
			at[1] = -1
		}
		at[0] = i
		out[name] = at
	}
	return out
}

// changes holds every position of a platform against what is told.
func (k *diffChecker) changes(p *pairing, all []jointly) {
	if p.a == nil || p.b == nil {
		return
	}
	inA, inB := p.seen(all)
	for name, at := range k.positions() {
		var told []*diffChange
		for i := range k.out.Changes {
			if c := &k.out.Changes[i]; c.Platform == p.name && c.Position == name {
				told = append(told, c)
			}
		}
		found := make([]tallied, len(told))
		for _, j := range all {
			both := j.a >= 0 && j.b >= 0
			// What stands for a vehicle of one catalogue only because a trait splits it does
			// not exist, and boxes may reach over it.
			if key := p.shared(j); both || inA[key] != inB[key] {
				k.at(p, name, at, j, told, found)
			}
		}
		for i, c := range told {
			k.told(p, c, &found[i])
		}
	}
}

// tallied is what the enumeration found of one change.
type tallied struct {
	n      int
	first  jointly
	road   map[int]bool
	cellsA map[ref]bool
	cellsB map[ref]bool
}

// at looks at one configuration.
func (k *diffChecker) at(p *pairing, name string, at [2]int, j jointly, told []*diffChange, found []tallied) {
	if j.a < 0 && j.b < 0 {
		return // boxes may reach over what does not exist
	}
	var in []int
	for i, c := range told {
		if inAny(c.Where, p, j) {
			in = append(in, i)
		}
	}
	if j.a < 0 || j.b < 0 {
		if len(in) > 0 {
			k.failf("%s, %s: %v is in a change and exists in one catalogue only", p.name, name, j)
		}
		return
	}
	was, cellsA := k.said(true, p, j.a, at[0])
	is, cellsB := k.said(false, p, j.b, at[1])
	if was == is || len(in) != 1 {
		if was != is || len(in) > 0 {
			k.failf("%s, %s: %v is %q and was %q, told %d times", p.name, name, j, is, was, len(in))
		}
		return
	}
	c, f := told[in[0]], &found[in[0]]
	none := names{}
	if got := k.names.saidBy(c.Old); got != was {
		k.failf("%s, %s: %v was %q, told %q", p.name, name, j, was, got)
	}
	if got := none.saidBy(c.New); got != is {
		k.failf("%s, %s: %v is %q, told %q", p.name, name, j, is, got)
	}
	if kind := kindOf(was, is); c.Kind != kind {
		k.failf("%s, %s: %v is %s, told %s", p.name, name, j, kind, c.Kind)
	}
	rows := k.accepted(p, j, at[1])
	if (len(rows) > 0) != (c.Accepted != nil) {
		k.failf("%s, %s: %v accepted by %d rows, told %v", p.name, name, j, len(rows), c.Accepted)
	} else if c.Accepted != nil && !slices.ContainsFunc(rows, func(a *accept) bool { return a.first.row() == c.Accepted.Cell.row() }) {
		k.failf("%s, %s: %v accepted by %v, which accepts nothing of it", p.name, name, j, c.Accepted.Cell)
	}
	f.add(p, j, cellsA, cellsB)
}

func (f *tallied) add(p *pairing, j jointly, cellsA, cellsB []ref) {
	if f.n == 0 {
		f.first, f.road, f.cellsA, f.cellsB = j, map[int]bool{}, map[ref]bool{}, map[ref]bool{}
	}
	f.n++
	f.road[j.b] = true
	for _, c := range cellsA {
		f.cellsA[c] = true
	}
	for _, c := range cellsB {
		f.cellsB[c] = true
	}
}

// told holds the figures of a change.
func (k *diffChecker) told(p *pairing, c *diffChange, f *tallied) {
	if c.Configurations != f.n || !near(c.OnTheRoad, shareOf(p.b, f.road)) {
		k.failf("%s, %s, %s: %d configurations, %v on the road; want %d, %v", p.name, c.Position, c.Kind, c.Configurations, c.OnTheRoad, f.n, shareOf(p.b, f.road))
	}
	if f.n > 0 && !p.is(c.Example, f.first) {
		k.failf("%s, %s, %s: the example is %v, want %v", p.name, c.Position, c.Kind, c.Example, f.first)
	}
	for _, side := range []struct {
		told []ref
		more int
		want map[ref]bool
	}{{c.Old.Cells, c.Old.More, f.cellsA}, {c.New.Cells, c.New.More, f.cellsB}} {
		if len(side.told)+side.more != len(side.want) {
			k.failf("%s, %s, %s: %d cells, want %v", p.name, c.Position, c.Kind, len(side.told)+side.more, side.want)
		}
		for _, cell := range side.told {
			if !side.want[cell] {
				k.failf("%s, %s, %s: the cell %v says something else", p.name, c.Position, c.Kind, cell)
			}
		}
	}
}

// accepted gives the rows of NEW that accept what stands behind what is said now: all of
// it, or else none.
func (k *diffChecker) accepted(p *pairing, j jointly, pos int) []*accept {
	if pos < 0 {
		return nil
	}
	var out []*accept
	for _, e := range k.new.saidBehind(k.b, spotAt{p.b, j.b, pos}) {
		rows := k.new.acceptedBy(e, j.b)
		if len(rows) == 0 {
			return nil
		}
		out = append(out, rows...)
	}
	return out
}

// sums holds the summary against what it adds up.
func (k *diffChecker) sums() {
	type sum struct{ entries, accepted, configurations int }
	want := map[string]sum{}
	for _, v := range k.out.Vehicles {
		s := want[v.Kind]
		want[v.Kind] = sum{s.entries + 1, s.accepted, s.configurations + v.Configurations}
	}
	for _, c := range k.out.Changes {
		s := want[c.Kind]
		if c.Accepted != nil {
			s.accepted++
		}
		want[c.Kind] = sum{s.entries + 1, s.accepted, s.configurations + c.Configurations}
	}
	for kind, got := range k.out.Summary {
		if kind == "unprotected" {
			continue // of rules and sizes, which are no positions
		}
		if s := want[kind]; (s != sum{got.Entries, got.Accepted, got.Configurations}) {
			k.failf("summary of %s: %v, want %v", kind, got, s)
		}
	}
}
