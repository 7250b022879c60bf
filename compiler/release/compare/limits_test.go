package compare_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/release/compare"
)

// many is a catalogue of n platforms, each with rows of its own; shift moves the parts.
func many(n, shift int) string {
	var platforms, vehicles, fits strings.Builder
	platforms.WriteString("-- c.xlsx/Platforms --\nPlatform\tYears\n")
	vehicles.WriteString("-- c.xlsx/Vehicles --\nPlatform\tSuspension\tOn the road\n")
	fits.WriteString("-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\n")
	for i := range n {
		fmt.Fprintf(&platforms, "H%d\t2004-2009\n", i)
		fmt.Fprintf(&vehicles, "H%d\tAir, Steel\t10\n", i)
		fmt.Fprintf(&fits, "H%d\tAir\tQX-%d\nH%d\tSteel\tQX-2\n", i, 1+(i+shift)%2, i)
	}
	return platforms.String() + vehicles.String() + fits.String()
}

// TestWorkersChangeNothing holds that the result is the same with any number of workers.
func TestWorkersChangeNothing(t *testing.T) {
	a, _ := release(t, many(30, 0))
	b, _ := release(t, many(30, 1))
	one, err := compare.Between(context.Background(), a, b, compare.Options{Workers: 1})
	require.NoError(t, err)
	assert.Len(t, one.Changes, 30)
	for _, workers := range []int{2, 7, 64} {
		more, err := compare.Between(context.Background(), a, b, compare.Options{Workers: workers})
		require.NoError(t, err)
		assert.Equal(t, lines(one), lines(more), "%d workers", workers)
	}
}

func TestACancelledContextIsTheError(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	a, before := release(t, "")
	_, err := compare.Between(ctx, a, a, compare.Options{})
	assert.ErrorIs(t, err, context.Canceled)
	_, err = compare.Since(ctx, a, a, before, before, compare.Options{})
	assert.ErrorIs(t, err, context.Canceled)
}

// TestOverTheBudgetIsSaid holds that what is too irregular is told and not guessed, and
// that equal rows need no budget.
func TestOverTheBudgetIsSaid(t *testing.T) {
	a, _ := release(t, "")
	b, _ := release(t, "-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tAir\tQX-2\nH7\tSteel\tQX-1\n")
	d, err := compare.Between(context.Background(), a, b, compare.Options{Budget: 1})
	require.NoError(t, err)
	assert.Equal(t, []string{"irregular H7 Damper"}, lines(d))
	d, err = compare.Between(context.Background(), a, a, compare.Options{Budget: 1})
	require.NoError(t, err)
	assert.Empty(t, lines(d))

	ragged := "-- c.xlsx/Vehicles --\nPlatform\tYears\tSuspension\nH7\tto 2005\tAir\nH7\t2006+\tSteel\n"
	old, _ := release(t, ragged)
	new, _ := release(t, ragged+"-- c.xlsx/Fitment --\nPlatform\tDamper\nH7\tQX-2\n")
	d, err = compare.Between(context.Background(), old, new, compare.Options{Budget: 1})
	require.NoError(t, err)
	assert.Equal(t, []string{"irregular H7"}, lines(d))
	d, err = compare.Between(context.Background(), old, old, compare.Options{Budget: 1})
	require.NoError(t, err)
	assert.Empty(t, lines(d))

	a.Guides[0].Answers[0].Exact = false
	d, err = compare.Between(context.Background(), a, b, compare.Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{"irregular H7 Damper"}, lines(d), "OLD could not be worked out")
}

// TestManyCellsAreCounted holds that no more than MaxCells are listed.
func TestManyCellsAreCounted(t *testing.T) {
	rows := "-- c.xlsx/Fitment --\nPlatform\tYears\tDamper\n"
	for range 25 {
		rows += "H7\t2004\tQX-1\n"
	}
	a, _ := release(t, rows)
	b, _ := release(t, "-- c.xlsx/Fitment --\nPlatform\tYears\tDamper\nH7\t2004\tQX-2\n")
	d, err := compare.Between(context.Background(), a, b, compare.Options{})
	require.NoError(t, err)
	require.Len(t, d.Changes, 1)
	assert.Len(t, d.Changes[0].Old.Cells, compare.MaxCells)
	assert.Equal(t, 5, d.Changes[0].Old.More)
}

// TestAcceptedInNew holds that what an Accepted row of NEW names is told apart, on exactly
// its vehicles and until its date.
func TestAcceptedInNew(t *testing.T) {
	gap := "-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tSteel\tQX-2\n"
	rows := func(row string) string {
		return "-- c.xlsx/Accepted --\nFinding\tPlatform\tYears\tPosition\tReason\tBy\tUntil\n" + row + "\n"
	}
	lost := "lost H7 Damper: 2 QX-1 C2 -> gap: "
	for _, c := range []struct {
		row  string
		want []string
	}{
		{"coverage-gap\tH7\tto 2005\tDamper\tin spring\tN. N.\t2027-03-01", []string{
			lost + "2, 20 on the road, 2004 to 2005, Suspension Air accepted by N. N.", lost + "4, 40 on the road, 2006 to 2009, Suspension Air"}},
		{"coverage-gap\t\t\t\tin spring\tN. N.\t2027-02-28", []string{lost + "6, 60 on the road, Suspension Air"}},
		{"coverage-planned\t\t\t\tin spring\tN. N.\t", []string{lost + "6, 60 on the road, Suspension Air"}},
		{"coverage-gap\t\t\t\tin spring\tN. N.\t", []string{lost + "6, 60 on the road, Suspension Air accepted by N. N."}},
	} {
		assert.Equal(t, c.want, between(t, "", gap+rows(c.row)), c.row)
	}
	a, _ := release(t, "")
	b, _ := release(t, gap+rows("coverage-gap\t\tto 2005\t\tin spring\tN. N.\t"))
	d, err := compare.Between(context.Background(), a, b, compare.Options{})
	require.NoError(t, err)
	assert.True(t, d.Any([]compare.Kind{compare.Gained, compare.Lost}))
	assert.False(t, d.Any([]compare.Kind{compare.Gained, compare.Conflict}))
	d.Changes = d.Changes[:1]
	assert.False(t, d.Any([]compare.Kind{compare.Lost}), "all that is left is accepted")
}

func TestParseKinds(t *testing.T) {
	got, err := compare.ParseKinds("lost, Conflict,,appeared")
	require.NoError(t, err)
	assert.Equal(t, []compare.Kind{compare.Lost, compare.Conflict, compare.Appeared}, got)
	got, err = compare.ParseKinds("")
	require.NoError(t, err)
	assert.Empty(t, got)
	_, err = compare.ParseKinds("lots")
	assert.EqualError(t, err, `"lots" is no kind of change (did you mean lost?); write some of appeared, vanished, gained, settled, changed, unsettled, unprotected, conflict, lost`)
}
