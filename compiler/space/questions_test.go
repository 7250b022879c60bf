package space_test

import (
	"fmt"
	"maps"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// walk asks the questions of a tree about c: the effort, and the end. False where no
// branch has the answer.
func walk(tree *space.Tree, c, effort []int) (spent int, end []int, ok bool) {
	for tree.Trait >= 0 {
		spent += effort[tree.Trait]
		i := slices.IndexFunc(tree.Branches, func(b space.Branch) bool { return b.Values.Has(c[tree.Trait]) })
		if i < 0 {
			return 0, nil, false
		}
		tree = tree.Branches[i].Next
	}
	return spent, tree.Classes, true
}

// TestQuestionsLeadToTheClass walks every configuration through the tree.
func TestQuestionsLeadToTheClass(t *testing.T) { rapid.Check(t, questionsLead) }

func questionsLead(t *rapid.T) {
	w := drawWorld(t)
	classes, class := w.classes(t)
	effort := make([]int, len(w.sizes))
	var see []int
	for i := range effort {
		if effort[i] = rapid.IntRange(0, 4).Draw(t, "effort"); effort[i] > 0 {
			see = append(see, i)
		}
	}
	states := rapid.SampledFrom([]int{0, 1, 3}).Draw(t, "states")
	weights, weight := w.weights(t)
	q := w.Questions(classes, space.Asking{Effort: effort, States: states, Weights: weights})
	known := w.where(func(c []int) bool { return class(c) >= 0 })
	if len(known) == 0 {
		require.Nil(t, q.Tree)
		return
	}
	possible := map[string][]int{}
	for _, c := range known {
		if k := key(c, see); !slices.Contains(possible[k], class(c)) {
			possible[k] = append(possible[k], class(c))
			slices.Sort(possible[k])
		}
	}
	sum, total := 0, 0
	for _, c := range known {
		spent, end, ok := walk(q.Tree, c, effort)
		require.True(t, ok, "no branch for %v", c)
		require.Equal(t, possible[key(c, see)], end)
		sum += spent * weight(c)
		total += weight(c)
	}
	require.Equal(t, big.NewInt(int64(sum)), q.Effort)
	require.Equal(t, big.NewInt(int64(total)), q.Weight)
}

// weights draws how likely configurations are, and gives the weight of each; each
// counts at least as one.
func (w *world) weights(t *rapid.T) ([]space.Weight, func(c []int) int) {
	boxes := w.boxes(t, "weights", 3)
	if len(boxes) == 0 {
		return nil, func([]int) int { return 1 }
	}
	out := []space.Weight{{Where: space.Full, Times: big.NewInt(1)}}
	times := make([]int, len(boxes))
	for i, b := range boxes {
		times[i] = rapid.IntRange(1, 50).Draw(t, "times")
		out = append(out, space.Weight{Where: w.Box(b), Times: big.NewInt(int64(times[i]))})
	}
	return out, func(c []int) int {
		n := 1
		for i, b := range boxes {
			if b.Has(c) {
				n += times[i]
			}
		}
		return n
	}
}

// TestQuestionsTakeLeastEffort compares with all ways to ask, on small spaces.
func TestQuestionsTakeLeastEffort(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	greedyTotal, bestTotal := new(big.Rat), new(big.Rat)
	ownTotal, leastTotal := 0, 0
	for range 220 {
		w := newWorld([]int{2 + r.IntN(2), 2, 1 + r.IntN(3), 2}, r.Perm(4))
		labels, classes := map[string]int{}, make([]space.Region, 3)
		for _, c := range w.all {
			if k := r.IntN(4); k < 3 {
				labels[key(c, []int{0, 1, 2, 3})] = k
				classes[k] = w.Union(classes[k], w.Box(space.Point(c)))
			}
		}
		effort := []int{1 + r.IntN(5), 1 + r.IntN(5), 1 + r.IntN(5), 1 + r.IntN(5)}
		heavy := w.randomBox(r, false)
		times := 1 + r.IntN(9)
		weight := func(c []int) int {
			if heavy.Has(c) {
				return 1 + times
			}
			return 1
		}
		weights := []space.Weight{{Where: space.Full, Times: big.NewInt(1)}, {Where: w.Box(heavy), Times: big.NewInt(int64(times))}}
		known := w.where(func(c []int) bool { _, ok := labels[key(c, []int{0, 1, 2, 3})]; return ok })
		least := leastEffort(known, labels, effort, nil, weight, false)
		own := leastEffort(known, labels, effort, nil, weight, true)
		ownTotal += own
		leastTotal += least

		q := w.Questions(classes, space.Asking{Effort: effort, Weights: weights})
		require.True(t, q.Exact)
		require.Equal(t, big.NewInt(int64(least)), q.Effort)
		if len(known) > 0 {
			require.Equal(t, int64(own), q.Least.Int64(), "the bound is where every answer may go its own way")
		}

		greedy := w.Questions(classes, space.Asking{Effort: effort, States: 1, Weights: weights})
		require.GreaterOrEqual(t, greedy.Effort.Cmp(q.Effort), 0)
		greedyTotal.Add(greedyTotal, greedy.Expected())
		bestTotal.Add(bestTotal, q.Expected())
	}
	ratio, _ := greedyTotal.Quo(greedyTotal, bestTotal).Float64()
	t.Logf("greedy trees take %.3f of the least effort", ratio)
	require.Less(t, ratio, 1.1)
	own := float64(leastTotal) / float64(ownTotal)
	t.Logf("where every answer may go its own way, trees that do not let it take %.4f of the least effort", own)
	require.Less(t, own, 1.01)
}

// leastEffort tries every order of questions: the sum over the configurations. Answers
// that leave the same to be decided go on together, unless each goes its own way.
func leastEffort(cs [][]int, labels map[string]int, effort, asked []int, weight func([]int) int, own bool) int {
	same, all := true, 0
	for _, c := range cs {
		all += weight(c)
		same = same && labels[key(c, []int{0, 1, 2, 3})] == labels[key(cs[0], []int{0, 1, 2, 3})]
	}
	if same {
		return 0
	}
	best := 1 << 60
	for t, e := range effort {
		if slices.Contains(asked, t) {
			continue
		}
		now := append(slices.Clone(asked), t)
		sum := e * all
		for _, in := range branches(cs, t, labels, now, own) {
			sum += leastEffort(in, labels, effort, now, weight, own)
		}
		best = min(best, sum)
	}
	return best
}

// branches groups configurations by their answer about t.
func branches(cs [][]int, t int, labels map[string]int, asked []int, own bool) [][][]int {
	var rest []int
	for u := range 4 {
		if !slices.Contains(asked, u) {
			rest = append(rest, u)
		}
	}
	by := map[string][][]int{}
	for v := range 3 {
		var in [][]int
		left := map[string]bool{} // to be decided
		for _, c := range cs {
			if c[t] == v {
				in = append(in, c)
				left[key(c, rest)+fmt.Sprint(labels[key(c, []int{0, 1, 2, 3})])] = true
			}
		}
		name := fmt.Sprint(slices.Sorted(maps.Keys(left)))
		if own {
			name = fmt.Sprint(v)
		}
		by[name] = append(by[name], in...)
	}
	return slices.Collect(maps.Values(by))
}

// TestQuestionsAskTheTellingTraitFirst is a case to read: the class is told by one
// trait, except for one of its values.
func TestQuestionsAskTheTellingTraitFirst(t *testing.T) {
	s := space.New([]int{3, 2, 5}, space.Options{})
	a := s.UnionBoxes([]space.Box{{space.SetOf(0)}, {space.SetOf(1), space.SetOf(0)}})
	q := s.Questions([]space.Region{a, s.Minus(space.Full, a)}, space.Asking{Effort: []int{2, 1, 1}})
	require.True(t, q.Exact)
	require.Equal(t, "7/3", q.Expected().String())
	require.Equal(t, 0, q.Tree.Trait, "though trait 1 is cheaper")
	require.Len(t, q.Tree.Branches, 3)
	require.Equal(t, []int{0}, q.Tree.Branches[0].Next.Classes)
	require.Equal(t, 1, q.Tree.Branches[1].Next.Trait)

	q = s.Questions([]space.Region{a, s.Minus(space.Full, a)}, space.Asking{Effort: []int{0, 1}})
	require.Equal(t, []int{0, 1}, q.Tree.Classes, "nothing that can be asked tells")
}

// TestQuestionsWithTooManyEnds has a class of its own for each of 64 configurations.
func TestQuestionsWithTooManyEnds(t *testing.T) {
	s := space.New([]int{2, 2, 2, 2, 2, 2}, space.Options{})
	var classes []space.Region
	for i := range 64 {
		c := make([]int, 6)
		for k := range c {
			c[k] = i >> k & 1
		}
		classes = append(classes, s.Box(space.Point(c)))
	}
	effort := []int{1, 1, 1, 1, 1, 1}
	for _, states := range []int{0, 1} {
		require.NotNil(t, s.Questions(classes, space.Asking{Effort: effort, States: states, Ends: 64}).Tree)
		q := s.Questions(classes, space.Asking{Effort: effort, States: states, Ends: 63})
		require.Nil(t, q.Tree)
		require.False(t, q.Exact)
	}
}

// TestQuestionsWithOneAnswerAreNotAsked: all that is known has one value of trait 0,
// which is the cheapest to ask, and the two others separate nothing by themselves.
func TestQuestionsWithOneAnswerAreNotAsked(t *testing.T) {
	s := space.New([]int{2, 2, 2}, space.Options{})
	known := s.Box(space.Box{space.SetOf(1)})
	equal := s.Intersect(known, s.UnionBoxes([]space.Box{{nil, space.SetOf(0), space.SetOf(0)}, {nil, space.SetOf(1), space.SetOf(1)}}))
	for _, states := range []int{0, 1} {
		q := s.Questions([]space.Region{equal, s.Minus(known, equal)}, space.Asking{Effort: []int{1, 2, 3}, States: states})
		require.Equal(t, "5", q.Expected().RatString())
	}
}
