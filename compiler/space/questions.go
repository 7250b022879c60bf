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
}

const defaultStates = 5_000

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
	Tree *Tree // nil where there are no configurations
	// Expected effort, where each configuration of the classes is as likely as any
	// other; nil where there are none.
	Expected *big.Rat
	// Exact tells that no other tree is expected to take less effort, among those
	// that go on in the same way after answers that leave the same to be decided.
	// Otherwise each question is the one that separates most for its effort.
	Exact bool
}

// Questions finds in which order to ask for traits, so that the class of a
// configuration is known with the least expected effort. Classes are disjoint.
// Answers that no configuration gives have no branch.
func (s *Space) Questions(classes []Region, o Asking) Questions {
	defer s.tidy(s.Mark())
	q := asker{s: s, effort: make([]int, len(s.sizes)), states: o.States, known: map[situation]*choice{}}
	copy(q.effort, o.Effort)
	if q.states == 0 {
		q.states = defaultStates
	}
	begin := q.begin(classes)
	if begin.f == Empty {
		return Questions{Exact: true}
	}
	best := q.solve(begin)
	exact := best != nil
	if !exact {
		q.greedy, q.known = true, map[situation]*choice{}
		best = q.solve(begin)
	}
	return Questions{
		Tree:     q.tree(begin),
		Expected: new(big.Rat).SetFrac(best.effort, q.total(begin)),
		Exact:    exact,
	}
}

// asker looks for the questions with the least effort.
type asker struct {
	s      *Space
	effort []int
	states int // left
	greedy bool
	ends   [][]int // classes that each label of situation.f stands for
	known  map[situation]*choice
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
func (q *asker) begin(classes []Region) situation {
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
	return q.lean(situation{f, s.View(all, traits).root}, live)
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
	if q.states--; q.states < 0 && !q.greedy {
		return nil
	}
	best := (*choice)(nil)
	for _, c := range q.questions(at) {
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

// questions lists what may be asked, with what the question itself takes; the only
// most telling one where the search is greedy.
func (q *asker) questions(at situation) []*choice {
	var out []*choice
	total := q.total(at)
	for level, t := range q.s.order {
		if q.effort[t] <= 0 {
			continue
		}
		answers := q.answers(at, int32(level))
		if len(answers) == 0 {
			continue
		}
		asked := new(big.Int).Mul(total, big.NewInt(int64(q.effort[t])))
		out = append(out, &choice{level: int32(level), answers: answers, effort: asked})
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

// tree gives the questions that were found.
func (q *asker) tree(at situation) *Tree {
	c := q.known[at]
	if c.level < 0 {
		label, _ := q.end(at)
		return &Tree{Trait: -1, Classes: q.ends[label]}
	}
	out := &Tree{Trait: q.s.order[c.level]}
next:
	for _, a := range c.answers {
		label, last := q.end(a.next)
		for i, b := range out.Branches {
			if last && b.Next.Trait < 0 && slices.Equal(b.Next.Classes, q.ends[label]) {
				out.Branches[i].Values = b.Values.Or(a.values)
				continue next
			}
		}
		out.Branches = append(out.Branches, Branch{a.values, q.tree(a.next)})
	}
	return out
}
