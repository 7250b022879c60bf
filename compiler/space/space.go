package space

import (
	"errors"
	"math/bits"
	"slices"
)

// Region is a set of configurations, built by a Space and meaningful only there,
// until the next Reset. Two regions of one space are the same set exactly where
// they are the same number.
type Region int32

// Empty and Full are the same in every space.
const (
	Empty Region = 0
	Full  Region = 1
)

// ErrBudget says that an answer needs more nodes than the space may use.
var ErrBudget = errors.New("space: node budget used up")

// Options of a Space.
type Options struct {
	// Order of the traits in diagrams, outermost first; nil is the declared order.
	// It changes speed and never an answer. Order gives a good one.
	Order []int
	// Budget is the number of nodes that may be made before ErrBudget; 0 is 1.2 million,
	// which take up to about 350 MB and 2 s. A node counts once for each begun 16
	// words of value sets that it stores, so that traits with hundreds of values cannot
	// take the memory.
	Budget int
}

const defaultBudget = 1_200_000

// Work that makes no nodes must come to an end as well. Times the budget, stepsPerNode
// bounds the steps of operations since a mark, and coverWalk and carveWalk bound the
// nodes visited by one Cover or Partition, and purseWalk those of all that one purse pays
// for, where a step, which looks far around in memory, counts as walkPerStep.
const (
	stepsPerNode = 16
	coverWalk    = 50
	carveWalk    = 100
	purseWalk    = 60
	walkPerStep  = 16
)

// Space holds the regions over one list of traits. It is for one goroutine at a time.
type Space struct {
	sizes []int // values of each trait
	order []int // trait of each level
	level []int // level of each trait
	words []int // words of a mask at each level
	whole []Set // all values, at each level

	arena
	cache  cache
	budget int
	steps  int // of apply, by which it is bounded as well
	walked int // effort so far, never less: what bounds Cover and Partition, and what a purse pays for
	end    int // what it may come to

	frame   frame    // edges of nodes that are being built
	seen    visits   // nodes that a walk has been to
	memo    memo     // results of a walk by node
	count   tally    // number of configurations below each node
	part    tally    // the same inside a box
	numbers numbers  // labels of views
	look    []Set    // sets of the box in hand, by level; nil: all
	wide    []uint64 // how many values each of look has
	parts   parts    // of the grid in hand
}

// New makes a space over traits with so many values each. It panics where a trait
// has no values or where Order is not a permutation of the traits.
func New(sizes []int, o Options) *Space {
	s := &Space{}
	s.Reset(sizes, o)
	return s
}

// Reset forgets all regions and keeps the memory, for another list of traits.
func (s *Space) Reset(sizes []int, o Options) {
	n := len(sizes)
	s.sizes = append(s.sizes[:0], sizes...)
	s.order = append(s.order[:0], o.Order...)
	if o.Order == nil {
		for t := range n {
			s.order = append(s.order, t)
		}
	}
	s.level = inverse(s.order, n)
	s.words, s.whole = s.words[:0], s.whole[:0]
	for _, t := range s.order {
		if sizes[t] < 1 {
			panic("space: a trait without values")
		}
		s.words = append(s.words, (sizes[t]+63)/64)
		s.whole = append(s.whole, All(sizes[t]))
	}
	s.budget = o.Budget
	if s.budget == 0 {
		s.budget = defaultBudget
	}
	s.steps, s.walked, s.end = 0, 0, endless
	s.look, s.wide = make([]Set, n), make([]uint64, n)
	s.arena.reset(n)
	s.cache.reset()
	s.frame.cut(0, 0)
	s.numbers = numbers{}
	s.count.reset(s.sizes)
	s.part.reset(s.sizes)
}

// inverse gives the level of each trait from the trait of each level.
func inverse(order []int, n int) []int {
	level := make([]int, n)
	for i := range level {
		level[i] = -1
	}
	for l, t := range order {
		if t < 0 || t >= n || level[t] >= 0 {
			panic("space: order is not a permutation of the traits")
		}
		level[t] = l
	}
	if len(order) != n {
		panic("space: order is not a permutation of the traits")
	}
	return level
}

// Traits is the number of traits.
func (s *Space) Traits() int { return len(s.sizes) }

// Size is the number of values of a trait.
func (s *Space) Size(trait int) int { return s.sizes[trait] }

// Used is how much of the budget the regions made so far have taken.
func (s *Space) Used() int { return s.used }

// Order gives the traits in the order that suits diagrams of these rows: the most
// often restricted first, else as declared.
func Order(traits int, rows []Box) []int {
	uses := make([]int, traits)
	for _, b := range rows {
		for t, set := range b {
			if set != nil {
				uses[t]++
			}
		}
	}
	order := make([]int, traits)
	for t := range order {
		order[t] = t
	}
	slices.SortStableFunc(order, func(a, b int) int { return uses[b] - uses[a] })
	return order
}

// load puts the sets of b in s.look by level, with nil where b does not restrict,
// and gives the deepest level that b restricts (-1: none) and false where b is empty.
func (s *Space) load(b Box) (last int, ok bool) {
	last = -1
	for l, t := range s.order {
		set, whole := b.At(t), s.whole[l]
		s.look[l] = nil
		if set == nil {
			continue
		}
		some, all := false, true
		for i, w := range whole {
			x := set.word(i) & w
			some = some || x != 0
			all = all && x == w
		}
		if !some {
			return 0, false
		}
		if !all {
			s.look[l], last = set, l
		}
	}
	return last, true
}

// widths fills s.wide with the number of values of each set of s.look.
func (s *Space) widths() {
	for l, set := range s.look {
		n := 0
		for i, w := range s.whole[l] {
			if set == nil {
				n += bits.OnesCount64(w)
			} else {
				n += bits.OnesCount64(w & set.word(i))
			}
		}
		s.wide[l] = uint64(n)
	}
}
