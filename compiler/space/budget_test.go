package space_test

import (
	"math/big"
	"slices"
	"testing"
	"time"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
)

// TestHardSpacesHaveLabelledAnswers wants of random rows, whose union has no small
// diagram, the exact gap or ErrBudget, and an example of the gap in any case.
func TestHardSpacesHaveLabelledAnswers(t *testing.T) {
	for _, n := range []int{200, 500, 1000, 2000} {
		sizes, rows := hardSpace(24, 6, n)
		s := space.New(sizes, space.Options{Order: space.Order(len(sizes), rows), Budget: 100_000})
		require.ErrorIs(t, s.Try(func() { s.UnionBoxes(rows) }), space.ErrBudget)
		require.Zero(t, s.Used(), "budget is given back")
		c, sure := s.Outside(space.Full, rows)
		require.True(t, sure)
		require.NotNil(t, c)
		require.False(t, anyHas(rows, c))
		require.Zero(t, s.Used(), "an example makes no regions")
	}
}

// TestDefaultBudget wants it to hold the gap of a large catalogue with a third as much
// again, and to end a hard space; BenchmarkHard has the time and memory of that.
func TestDefaultBudget(t *testing.T) {
	sizes, rows, vehicles := catalogue(16, 6, 20_000)
	s := space.New(sizes, space.Options{Order: space.Order(len(sizes), rows)})
	require.NoError(t, s.Try(func() { s.Minus(s.UnionBoxes(vehicles), s.UnionBoxes(rows)) }))
	require.Less(t, s.Used(), 750_000)
	sizes, rows = hardSpace(24, 6, 500)
	s.Reset(sizes, space.Options{Order: space.Order(len(sizes), rows)})
	require.ErrorIs(t, s.Try(func() { s.UnionBoxes(rows) }), space.ErrBudget)
}

// TestTryKeepsEarlierRegions runs out of budget again and again and asks about
// regions made before.
func TestTryKeepsEarlierRegions(t *testing.T) {
	sizes, rows := hardSpace(12, 5, 60)
	s := space.New(sizes, space.Options{Budget: 30_000})
	kept := s.UnionBoxes(rows[:4])
	count, used := s.Count(kept), s.Used()
	for range 3 {
		require.ErrorIs(t, s.Try(func() {
			s.Union(kept, s.UnionBoxes(rows[4:8]))
			require.NoError(t, s.Try(func() { s.UnionBoxes(rows[2:9]) }))
			s.UnionBoxes(rows)
		}), space.ErrBudget)
		require.Equal(t, used, s.Used())
		require.Equal(t, count, s.Count(kept))
		require.Equal(t, kept, s.UnionBoxes(rows[:4]), "the same region again")
		require.Equal(t, used, s.Used(), "and no new nodes for it")
		more := s.Union(kept, s.Box(rows[20]))
		require.Equal(t, new(big.Int).Add(s.Count(kept), s.Count(s.Minus(more, kept))), s.Count(more))
		used = s.Used()
	}
}

func TestTryPassesOtherPanicsOn(t *testing.T) {
	s := space.New([]int{2}, space.Options{})
	require.PanicsWithValue(t, "other", func() { _ = s.Try(func() { panic("other") }) })
	tiny := space.New([]int{2, 2}, space.Options{Budget: 1})
	require.Panics(t, func() { tiny.UnionBoxes([]space.Box{{space.SetOf(0), space.SetOf(1)}}) })
	require.Panics(t, func() {
		_ = s.Try(func() { tiny.UnionBoxes([]space.Box{{space.SetOf(0), space.SetOf(1)}}) })
	}, "another space's budget")
}

// TestReleaseForgets checks that regions before a mark stay, and that those after
// can be made again.
func TestReleaseForgets(t *testing.T) {
	sizes, rows := hardSpace(10, 4, 12)
	s := space.New(sizes, space.Options{})
	kept := s.UnionBoxes(rows[:6])
	want, used := s.Count(kept), s.Used()
	mark := s.Mark()
	all := s.UnionBoxes(rows)
	total := s.Count(all)
	s.Release(mark)
	require.Equal(t, used, s.Used())
	require.Equal(t, want, s.Count(kept))
	require.Equal(t, total, s.Count(s.UnionBoxes(rows)))
	require.Panics(t, func() {
		later := s.Mark()
		s.Release(mark)
		s.Release(later)
	})
}

// TestResetIsLikeNew uses one space for two lists of traits.
func TestResetIsLikeNew(t *testing.T) {
	sizes, rows := hardSpace(8, 5, 30)
	s := space.New([]int{300, 3}, space.Options{Order: []int{1, 0}})
	s.Count(s.UnionBoxes([]space.Box{{space.Range(3, 290), space.SetOf(1)}}))
	s.Reset(sizes, space.Options{})
	fresh := space.New(sizes, space.Options{})
	require.Equal(t, fresh.UnionBoxes(rows), s.UnionBoxes(rows))
	require.Equal(t, fresh.Count(fresh.UnionBoxes(rows)), s.Count(s.UnionBoxes(rows)))
	require.Equal(t, fresh.Used(), s.Used())
}

func TestOrderMustBeAPermutation(t *testing.T) {
	for _, order := range [][]int{{0}, {0, 0}, {0, 2}, {0, -1}, {}} {
		require.Panics(t, func() { space.New([]int{2, 2}, space.Options{Order: order}) }, "%v", order)
	}
	require.Panics(t, func() { space.New([]int{2, 0}, space.Options{}) })
	require.Equal(t, []int{2, 0, 1, 3}, space.Order(4, []space.Box{{space.SetOf(1), nil, space.SetOf(1)}, {nil, nil, space.SetOf(0)}}))
}

// TestIrregularAnswersEnd asks for boxes of a region whose diagram takes much of the
// budget: what comes must be exact or ErrBudget, and soon.
func TestIrregularAnswersEnd(t *testing.T) {
	sizes, rows := hardSpace(12, 4, 30)
	s := space.New(sizes, space.Options{})
	s.Minus(space.Full, s.UnionBoxes(rows))
	needed := s.Used()
	ended := 0
	for _, times := range []int{2, 8} {
		s.Reset(sizes, space.Options{Budget: times * needed})
		var gap space.Region
		require.NoError(t, s.Try(func() { gap = s.Minus(space.Full, s.UnionBoxes(rows)) }))
		begin := time.Now()
		var boxes []space.Box
		var rest space.Region
		cover := s.Try(func() { boxes, rest = s.Cover(gap, space.Full, 200) })
		if cover == nil {
			require.Equal(t, s.Minus(gap, s.UnionBoxes(boxes)), rest)
			ended++
		}
		split := s.Try(func() { s.Partition([]space.Region{gap, s.Minus(space.Full, gap)}, space.Full) })
		require.ErrorIs(t, split, space.ErrBudget)
		t.Logf("budget %d: cover %v, %d boxes; %v", times*needed, cover, len(boxes), time.Since(begin))
	}
	require.Positive(t, ended)
}

// TestPartitionUnderTightBudgets gives so little that what was carved out has to be
// worked out again: what comes must be exact or ErrBudget.
func TestPartitionUnderTightBudgets(t *testing.T) {
	sizes, rows, vehicles := catalogue(8, 6, 80)
	o := space.Options{Order: space.Order(len(sizes), rows)}
	s := space.New(sizes, o)
	outcomes(s, rows, vehicles, 6)
	needed, ended := s.Used(), 0
	for more := 100; more <= 3_000; more += 100 {
		o.Budget = needed + more
		s.Reset(sizes, o)
		classes, care := outcomes(s, rows, vehicles, 6)
		var cells []space.Cell
		if s.Try(func() { cells = s.Partition(classes, care) }) != nil {
			continue
		}
		ended++
		s := space.New(sizes, space.Options{Order: o.Order})
		classes, care = outcomes(s, rows, vehicles, 6)
		left := slices.Clone(classes)
		for i, c := range cells {
			require.Equal(t, space.Empty, s.Intersect(s.Minus(care, classes[c.Class]), s.Box(c.Box)), "of one class")
			left[c.Class] = s.Minus(left[c.Class], s.Box(c.Box))
			for _, d := range cells[:i] {
				require.False(t, c.Box.Meets(d.Box), "apart")
			}
		}
		require.Equal(t, make([]space.Region, len(classes)), left, "and nothing is left")
	}
	t.Logf("%d ended", ended)
	require.Greater(t, ended, 5)
}
