package space_test

import (
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
	q := w.Questions(classes, space.Asking{Effort: effort, States: states})
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
	sum := 0
	for _, c := range known {
		spent, end, ok := walk(q.Tree, c, effort)
		require.True(t, ok, "no branch for %v", c)
		require.Equal(t, possible[key(c, see)], end)
		sum += spent
	}
	require.Equal(t, big.NewRat(int64(sum), int64(len(known))), q.Expected)
}

// TestQuestionsTakeLeastEffort compares with all ways to ask, on small spaces.
func TestQuestionsTakeLeastEffort(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	greedyTotal, bestTotal := new(big.Rat), new(big.Rat)
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
		known := w.where(func(c []int) bool { _, ok := labels[key(c, []int{0, 1, 2, 3})]; return ok })
		least := leastEffort(known, labels, effort, nil)

		q := w.Questions(classes, space.Asking{Effort: effort})
		require.True(t, q.Exact)
		require.Equal(t, big.NewRat(int64(least), int64(len(known))), q.Expected)

		greedy := w.Questions(classes, space.Asking{Effort: effort, States: 1})
		require.GreaterOrEqual(t, greedy.Expected.Cmp(q.Expected), 0)
		greedyTotal.Add(greedyTotal, greedy.Expected)
		bestTotal.Add(bestTotal, q.Expected)
	}
	ratio, _ := greedyTotal.Quo(greedyTotal, bestTotal).Float64()
	t.Logf("greedy trees take %.3f of the least effort", ratio)
	require.Less(t, ratio, 1.1)
}

// leastEffort tries every order of questions: the sum over the configurations.
func leastEffort(cs [][]int, labels map[string]int, effort, asked []int) int {
	same := true
	for _, c := range cs {
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
		sum := e * len(cs)
		for v := range 3 {
			var in [][]int
			for _, c := range cs {
				if c[t] == v {
					in = append(in, c)
				}
			}
			if len(in) > 0 {
				sum += leastEffort(in, labels, effort, append(slices.Clone(asked), t))
			}
		}
		best = min(best, sum)
	}
	return best
}

// TestQuestionsAskTheTellingTraitFirst is a case to read: the class is told by one
// trait, except for one of its values.
func TestQuestionsAskTheTellingTraitFirst(t *testing.T) {
	s := space.New([]int{3, 2, 5}, space.Options{})
	a := s.UnionBoxes([]space.Box{{space.SetOf(0)}, {space.SetOf(1), space.SetOf(0)}})
	q := s.Questions([]space.Region{a, s.Minus(space.Full, a)}, space.Asking{Effort: []int{2, 1, 1}})
	require.True(t, q.Exact)
	require.Equal(t, "7/3", q.Expected.String())
	require.Equal(t, 0, q.Tree.Trait, "though trait 1 is cheaper")
	require.Len(t, q.Tree.Branches, 3)
	require.Equal(t, []int{0}, q.Tree.Branches[0].Next.Classes)
	require.Equal(t, 1, q.Tree.Branches[1].Next.Trait)

	q = s.Questions([]space.Region{a, s.Minus(space.Full, a)}, space.Asking{Effort: []int{0, 1}})
	require.Equal(t, []int{0, 1}, q.Tree.Classes, "nothing that can be asked tells")
}
