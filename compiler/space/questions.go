package space

import (
	"math/big"
	"slices"
)

// Asking says what may be asked.
type Asking struct {
	// Effort of finding out each trait, in any unit; a trait with zero or less, or
	// beyond the end, cannot be found out.
	Effort []int
	// States bounds the search for the least effort: how many different situations
	// are looked at before the answer is a good tree only. 0 is 5,000.
	States int
	// Ends bounds the tree: one with more ends is not given. 0 is 5,000.
	Ends int
	// Weights say how likely the configurations are: each counts as the sum of the
	// weights of the regions that hold it. None: each counts as one.
	Weights []Weight
	// Shared has the trees that were found before; nil: none.
	Shared *Shared
}

// Weight is how often each configuration of a region is met with: Times, which is positive, for
// as much as it counts by the measure.
type Weight struct {
	Where Region
	Times *big.Int
	By    Measure
}

const (
	defaultStates = 5_000
	defaultEnds   = 5_000
)

// Tree is a question with what follows from each answer, or an end.
type Tree struct {
	Trait    int      // that is asked; -1 at an end
	Branches []Branch // by least value
	// Classes are those that are still possible at an end, ascending; several where
	// no trait that can be asked tells them apart.
	Classes []int
}

// Branch is what follows from some of the answers.
type Branch struct {
	Values Set
	Next   *Tree
}

// Questions is a way to find the class of a configuration.
type Questions struct {
	// Tree is nil where there are no configurations, and where it would have too many
	// ends.
	Tree *Tree
	// Effort is the sum over the configurations of what each takes, times its weight,
	// and Weight that of their weights; nil where Tree is.
	Effort, Weight *big.Int
	// Least is proven: no tree takes less Effort, also where each answer goes on in its
	// own way. Nil where there are no configurations.
	Least *big.Int
	// Exact tells that no other tree is expected to take less effort, among those
	// that go on in the same way after answers that leave the same to be decided.
	// Otherwise each question is the one that separates most for its effort.
	Exact bool
}

// Expected is the effort that a configuration takes on average.
func (q *Questions) Expected() *big.Rat { return new(big.Rat).SetFrac(q.Effort, q.Weight) }

// Questions finds in which order to ask for traits, so that the class of a
// configuration is known with the least expected effort. Classes are disjoint.
// Answers that no configuration gives have no branch.
//
// Where each trait that matters is free or has one value there are few parts of what can
// be asked, up to a million. Then all of them are written out, and the least effort for
// each is worked out from the smaller ones, where every answer may go its own way. That is
// a bound for trees in which answers go on together that leave the same to be decided, and
// nearly what those take: the search for them follows the question with the least bound,
// gives up what cannot be better, and so hardly looks at anything that is not in the tree.
// Once its states are used up it goes on with the most promising question alone, keeps
// what it has found so far, and Least tells how far from the best that may be.
//
// Elsewhere the situations are regions. Tried before, and slower: regions for all, with
// the cheapest question as the bound (100 ms a position on a tidy catalogue, most of them
// not solved, now 4 ms and solved).
func (s *Space) Questions(classes []Region, o Asking) Questions {
	defer s.tidy(s.Mark())
	q := asker{s: s, effort: make([]int, len(s.sizes)), states: o.States, known: map[situation]*choice{},
		totals: map[situation]*big.Int{}}
	copy(q.effort, o.Effort)
	if q.states == 0 {
		q.states = defaultStates
	}
	ends := o.Ends
	if ends == 0 {
		ends = defaultEnds
	}
	begin := q.begin(classes, o.Weights)
	if begin.f == Empty {
		return Questions{Exact: true}
	}
	if g := q.grid(begin); g != nil {
		return q.onGrid(g, ends, o.Shared)
	}
	return q.onRegions(begin, ends)
}

// onRegions finds the questions where there are too many configurations to write out.
func (q *asker) onRegions(begin situation, ends int) Questions {
	least := q.floor(begin)
	best := q.solve(begin)
	exact := best != nil
	if !exact {
		// Each situation is in the tree once at least, and none has a single branch: more
		// of them than ends are too many.
		q.greedy, q.known, q.states = true, map[situation]*choice{}, ends
		best = q.solve(begin)
	}
	if best == nil || q.size(begin, ends+1, map[situation]int{}) > ends {
		return Questions{Least: least}
	}
	return Questions{Tree: q.tree(begin), Effort: best.effort, Weight: q.total(begin), Least: least, Exact: exact}
}

// asker looks for the questions with the least effort.
type asker struct {
	s      *Space
	effort []int
	states int // left
	greedy bool
	ends   [][]int // classes that each label of situation.f stands for
	known  map[situation]*choice
	totals map[situation]*big.Int
	alike  []map[int]Set // by level: the values that a value stands for, see thin
}

// situation is what is to be found out: a function to the classes that are possible,
// and one to the number of configurations, both of the traits that can be asked.
type situation struct{ f, w Region }

// choice is the best question in a situation.
type choice struct {
	level   int32 // -1: nothing to ask
	answers []answer
	effort  *big.Int // summed over the configurations
}

type answer struct {
	values Set
	next   situation
}

// begin gives the first situation: classes that look the same in all traits that can
// be asked become ends with several classes.
func (q *asker) begin(classes []Region, weights []Weight) situation {
	s := q.s
	var traits []int
	for t, e := range q.effort {
		if e > 0 {
			traits = append(traits, t)
		}
	}
	all := Empty
	var looks []Region // disjoint; q.ends has the classes of each
	for k, r := range classes {
		all = s.Union(all, r)
		left := s.Project(r, traits)
		for i := range looks {
			if both := s.Intersect(looks[i], left); both != Empty {
				looks, q.ends = append(looks, both), append(q.ends, append(slices.Clone(q.ends[i]), k))
				looks[i], left = s.Minus(looks[i], both), s.Minus(left, both)
			}
		}
		looks, q.ends = append(looks, left), append(q.ends, []int{k})
	}
	f := Empty
	for i, r := range looks {
		f = s.apply(join, f, s.label(r, i))
	}
	live := make(Set, (len(s.order)+63)/64)
	for _, t := range traits {
		l := s.level[t]
		live[l/64] |= 1 << (l % 64)
	}
	if weights == nil {
		weights = []Weight{{Where: all, Times: one}}
	}
	w := Empty
	for _, x := range weights {
		part := s.weighed(s.Intersect(all, x.Where), traits, x.By).root
		w = s.apply(plus, w, s.apply(times, part, s.numberLabel(x.Times)))
	}
	return q.thin(q.lean(situation{f, w}, live))
}

// thin leaves one value of those that a function tells apart nowhere, with the weight
// of all of them, which q.alike remembers.
func (q *asker) thin(at situation) situation {
	s := q.s
	q.alike = make([]map[int]Set, len(s.order))
	for level := range s.support(at.f).Values() {
		q.alike[level] = map[int]Set{}
		w, keep := Empty, Set{}
		for _, values := range s.alike(at.f, int32(level)) {
			v := values.Min()
			q.alike[level][v], keep = values, keep.Or(SetOf(v))
			sum := Empty
			for u := range values.Values() {
				sum = s.apply(plus, sum, s.restrict(at.w, int32(level), u))
			}
			one := s.Box(Box{}.With(s.order[level], SetOf(v)))
			w = s.apply(plus, w, s.Intersect(sum, one))
		}
		at = situation{s.Intersect(at.f, s.Box(Box{}.With(s.order[level], keep))), w}
	}
	return at
}

// lean forgets those of the live levels, on which at.w may depend, on which at.f does
// not.
func (q *asker) lean(at situation, live Set) situation {
	at.w = q.s.sum(at.w, live.Without(q.s.support(at.f)))
	return at
}

// end tells the label of a situation with only one.
func (q *asker) end(at situation) (int, bool) {
	first, one := Empty, true
	q.s.seen.begin(len(q.s.nodes))
	note := func(k Region) {
		if k < 0 {
			one = one && (first == Empty || first == k)
			first = k
		}
	}
	note(at.f)
	q.s.visit(at.f, func(n node) {
		for _, k := range q.s.below(n) {
			note(k)
		}
	})
	return int(-1 - first), one
}

// solve gives the best question, nil where more situations than allowed would have to
// be looked at.
func (q *asker) solve(at situation) *choice {
	if done, ok := q.known[at]; ok {
		return done
	}
	if _, ok := q.end(at); ok {
		q.known[at] = &choice{level: -1, effort: new(big.Int)}
		return q.known[at]
	}
	if q.states--; q.states < 0 {
		return nil
	}
	best := (*choice)(nil)
	for _, c := range q.questions(at) {
		if best != nil && c.effort.Cmp(best.effort) >= 0 {
			break // and so do all that come after it
		}
		if c.answers == nil {
			c.answers = q.answers(at, c.level)
		}
		if len(c.answers) < 2 {
			continue // whatever the answer, as much is left to be decided
		}
		if !q.add(c, best) {
			return nil
		}
		if best == nil || c.effort.Cmp(best.effort) < 0 {
			best = c
		}
	}
	q.known[at] = best
	return best
}

// questions lists what may be asked, with what the question itself takes, the least
// first; only the most telling one where the search is greedy.
func (q *asker) questions(at situation) []*choice {
	var out []*choice
	total := q.total(at)
	for level := range q.s.support(at.f).Values() {
		asked := new(big.Int).Mul(total, big.NewInt(int64(q.effort[q.s.order[level]])))
		out = append(out, &choice{level: int32(level), effort: asked})
	}
	slices.SortStableFunc(out, func(a, b *choice) int { return q.s.order[a.level] - q.s.order[b.level] })
	if q.greedy {
		return []*choice{q.telling(at, out)}
	}
	slices.SortStableFunc(out, func(a, b *choice) int { return a.effort.Cmp(b.effort) })
	return out
}

// add adds to c the effort after each answer; it stops where c cannot be better than
// best. False means that the search is over its bound.
func (q *asker) add(c, best *choice) bool {
	least := new(big.Int) // effort of the answers not solved yet, at least
	floors := make([]*big.Int, len(c.answers))
	for i, a := range c.answers {
		floors[i] = q.floor(a.next)
		least.Add(least, floors[i])
	}
	for i, a := range c.answers {
		if best != nil && new(big.Int).Add(c.effort, least).Cmp(best.effort) >= 0 {
			c.effort.Add(c.effort, least)
			return true
		}
		next := q.solve(a.next)
		if next == nil {
			return false
		}
		least.Sub(least, floors[i])
		c.effort.Add(c.effort, next.effort)
	}
	return true
}

// floor is less than no tree takes: nothing at an end, else the cheapest question.
func (q *asker) floor(at situation) *big.Int {
	if done, ok := q.known[at]; ok {
		return done.effort
	}
	if _, ok := q.end(at); ok {
		return new(big.Int)
	}
	cheapest := 0
	for level := range q.s.support(at.f).Values() {
		if e := q.effort[q.s.order[level]]; e > 0 && (cheapest == 0 || e < cheapest) {
			cheapest = e
		}
	}
	return new(big.Int).Mul(q.total(at), big.NewInt(int64(cheapest)))
}

// size is the number of ends of the tree that was found, where that is less than most.
func (q *asker) size(at situation, most int, known map[situation]int) int {
	if n, ok := known[at]; ok {
		return n
	}
	n := 0
	for _, a := range q.known[at].answers {
		if n += q.size(a.next, most, known); n >= most {
			break
		}
	}
	if q.known[at].level < 0 {
		n = 1
	}
	known[at] = min(n, most)
	return known[at]
}

// tree gives the questions that were found.
func (q *asker) tree(at situation) *Tree {
	c := q.known[at]
	if c.level < 0 {
		label, _ := q.end(at)
		return &Tree{Trait: -1, Classes: q.ends[label]}
	}
	out := &Tree{Trait: q.s.order[c.level]}
	for _, a := range c.answers {
		next := q.tree(a.next)
		var values Set
		for v := range a.values.Values() {
			values = values.Or(q.alike[c.level][v])
		}
		i := slices.IndexFunc(out.Branches, func(b Branch) bool { return b.Next.equal(next) })
		if i < 0 {
			out.Branches = append(out.Branches, Branch{values, next})
			continue
		}
		out.Branches[i].Values = out.Branches[i].Values.Or(values)
	}
	return out
}

// equal tells whether two trees ask the same and end alike.
func (t *Tree) equal(o *Tree) bool {
	return t == o || t.Trait == o.Trait && slices.Equal(t.Classes, o.Classes) &&
		slices.EqualFunc(t.Branches, o.Branches, func(a, b Branch) bool {
			return a.Values.Equal(b.Values) && a.Next.equal(b.Next)
		})
}
