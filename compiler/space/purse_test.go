package space_test

import (
	"testing"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
)

// TestPurse asks questions that are each within the budget until a purse is empty: then they end
// as over the budget, what was made before stays, and what another purse pays for goes on.
func TestPurse(t *testing.T) {
	sizes, rows := hardSpace(12, 4, 30)
	s := space.New(sizes, space.Options{Budget: 200_000})
	kept := s.UnionBoxes(rows[:4])
	count, purse := s.Count(kept), s.Purse()
	ask := func() (err error) {
		err = s.Try(func() {
			mark := s.Mark()
			s.UnionBoxes(rows)
			s.Release(mark)
		})
		return err
	}
	require.NoError(t, ask())
	answered := 0
	for !purse.Spent() {
		s.Pay(purse, func() {
			if err := ask(); err == nil {
				answered++
			} else {
				require.ErrorIs(t, err, space.ErrBudget)
				require.True(t, s.Broke())
			}
		})
	}
	require.Greater(t, answered, 1)
	s.Pay(purse, func() { require.ErrorIs(t, ask(), space.ErrBudget) })
	require.False(t, s.Broke(), "nothing is paid for any more")
	require.NoError(t, ask())
	s.Pay(s.Purse(), func() { require.NoError(t, ask()) })
	require.Equal(t, count, s.Count(kept))
}

// TestForfeit wants a tenth to be left, and never more than there was.
func TestForfeit(t *testing.T) {
	sizes, rows := hardSpace(12, 4, 30)
	s := space.New(sizes, space.Options{Budget: 1_000_000})
	purse := s.Purse()
	s.Pay(purse, func() { s.UnionBoxes(rows) })
	one := purse.Used()
	require.Positive(t, one)
	purse.Forfeit()
	left := s.Purse().Left() / 10
	require.Equal(t, left, purse.Left())
	s.Pay(purse, func() { s.Meets(s.UnionBoxes(rows[:9]), rows[9]) })
	require.Less(t, purse.Left(), left)
	left = purse.Left()
	purse.Forfeit()
	require.Equal(t, left, purse.Left())
}
