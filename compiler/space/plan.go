package space

import (
	"cmp"
	"slices"
)

// plan is a decision tree for a function with labels.
type plan struct {
	level  int // that it splits, -1 in a leaf
	class  int // of a leaf
	groups []group
	leaves int
	conds  int // conditions of all leaves
}

// group is one branch of a split.
type group struct {
	values Set // nil where the split has one branch
	f      Region
	plan   *plan
}

// split is a way to begin a plan.
type split struct {
	level  int
	groups []group
	guess  int // of the leaves that it leads to
}

// planner looks for the plan with the fewest leaves.
type planner struct {
	s      *Space
	width  int // splits tried at a node
	effort int // left; counts nodes visited
	plans  map[Region]*plan
	shapes map[Region]shape
	labels visits
}

// shape is what a function looks like from outside.
type shape struct {
	labels int // different ones
	class  int // one of them
	nodes  int
}

// guess is about how many leaves a function leads to.
func (h shape) guess() int {
	if h.labels == 1 {
		return 1
	}
	return max(h.labels, h.nodes+1)
}

// planEffort bounds the search of Partition, in nodes visited, and planWidth says how
// many splits are followed at a node: the first two are nearly always the best.
const (
	planEffort = 10_000
	planWidth  = 2
)

// plan gives a good decision tree for f, which is not Empty; nil where it would take
// too much effort.
func (s *Space) plan(f Region) *plan {
	for _, width := range []int{planWidth, 1} {
		p := planner{s: s, width: width, effort: planEffort, plans: map[Region]*plan{}, shapes: map[Region]shape{}}
		if found := p.solve(f); found != nil {
			return found
		}
	}
	return nil
}

func (p *plan) better(q *plan) bool {
	return p.leaves < q.leaves || p.leaves == q.leaves && p.conds < q.conds
}

// solve gives the best plan for f, nil where that takes more effort than is left.
func (p *planner) solve(f Region) *plan {
	if done, ok := p.plans[f]; ok {
		return done
	}
	h := p.shape(f)
	if h.labels == 1 {
		leaf := &plan{level: -1, class: h.class, leaves: 1}
		p.plans[f] = leaf
		return leaf
	}
	splits := p.splits(f)
	if p.effort < 0 {
		return nil
	}
	var best *plan
	for _, sp := range splits[:min(p.width, len(splits))] {
		if try := p.follow(sp, best); try != nil && (best == nil || try.better(best)) {
			best = try
		}
		if p.effort < 0 {
			return nil
		}
	}
	p.plans[f] = best
	return best
}

// follow gives the best plan that begins with sp, nil where it is not better than
// best.
func (p *planner) follow(sp split, best *plan) *plan {
	out := &plan{level: sp.level, groups: sp.groups}
	least := 0 // leaves of groups not solved yet, at least
	for _, g := range sp.groups {
		least += p.shape(g.f).labels
	}
	for i := range out.groups {
		g := &out.groups[i]
		if best != nil && out.leaves+least > best.leaves {
			return nil
		}
		if g.plan = p.solve(g.f); g.plan == nil {
			return nil
		}
		least -= p.shape(g.f).labels
		out.leaves += g.plan.leaves
		out.conds += g.plan.conds
		if g.values != nil {
			out.conds += g.plan.leaves
		}
	}
	return out
}

// splits gives the ways to begin a plan for f, the most promising first; none where
// there is no effort left.
func (p *planner) splits(f Region) []split {
	var out []split
	for level := range p.s.support(f).Values() {
		if p.effort < 0 {
			return nil
		}
		sp := split{level: level, groups: p.groups(f, int32(level))}
		for _, g := range sp.groups {
			sp.guess += p.shape(g.f).guess()
		}
		out = append(out, sp)
	}
	slices.SortStableFunc(out, func(a, b split) int {
		return cmp.Or(cmp.Compare(a.guess, b.guess), cmp.Compare(len(a.groups), len(b.groups)), cmp.Compare(p.s.order[a.level], p.s.order[b.level]))
	})
	return out
}

// groups puts the values of a level together below which the same is to be decided,
// or nothing that contradicts and is not easier apart.
func (p *planner) groups(f Region, level int32) []group {
	var out []group
	trait := p.s.order[level]
	holes := Set{}
	for _, values := range p.s.alike(f, level) {
		p.effort -= p.shape(f).nodes
		g := p.s.restrict(f, level, values.Min())
		if g == Empty {
			holes = holes.Or(values)
			continue
		}
		if i := slices.IndexFunc(out, func(o group) bool { return o.f == g }); i >= 0 {
			out[i].values = out[i].values.Or(values)
		} else {
			out = append(out, group{values: values, f: g})
		}
	}
	out = p.merge(out)
	if len(out) == 1 {
		out[0].values = nil
		return out
	}
	if trait == 0 {
		for i := range out {
			out[i].values = bridge(out[i].values, holes)
		}
	}
	return out
}

// merge joins groups that do not contradict each other where that promises fewer
// leaves.
func (p *planner) merge(in []group) []group {
	var out []group
next:
	for _, g := range in {
		for i := len(out) - 1; i >= 0; i-- {
			p.effort--
			if !p.s.compatible(out[i].f, g.f) {
				continue
			}
			f := p.s.apply(join, out[i].f, g.f)
			if p.shape(f).guess() < p.shape(out[i].f).guess()+p.shape(g.f).guess() {
				out[i].f, out[i].values = f, out[i].values.Or(g.values)
				continue next
			}
		}
		out = append(out, g)
	}
	return out
}

// bridge adds to set the runs of holes that lie between two of its values with
// nothing else between.
func bridge(set, holes Set) Set {
	out, last := set, -1
	for v := range set.Values() {
		if gap := Range(last+1, v-1); last >= 0 && gap.In(holes) {
			out = out.Or(gap)
		}
		last = v
	}
	return out
}
