package sheets

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/sheets/cell"
)

// The sweep finds two ranges that share a cell exactly where comparing all pairs does.
func TestOverlap(t *testing.T) {
	meets := func(a, b cell.Range) bool {
		return a.From.Row <= b.To.Row && b.From.Row <= a.To.Row && a.From.Col <= b.To.Col && b.From.Col <= a.To.Col
	}
	yes, no := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		one := rapid.Custom(func(t *rapid.T) cell.Range {
			from := cell.Pos{Row: rapid.Int32Range(1, 30).Draw(t, "row"), Col: rapid.Int32Range(1, 30).Draw(t, "col")}
			return cell.Range{From: from, To: cell.Pos{Row: from.Row + rapid.Int32Range(0, 4).Draw(t, "rows"), Col: from.Col + rapid.Int32Range(0, 4).Draw(t, "cols")}}
		})
		ranges := rapid.SliceOfN(one, 0, 12).Draw(t, "ranges")
		want := false
		for i, a := range ranges {
			for _, b := range ranges[:i] {
				want = want || meets(a, b)
			}
		}
		later, earlier, found := overlap(ranges)
		require.Equal(t, want, found)
		if found {
			require.True(t, meets(later, earlier))
			yes++
		} else {
			no++
		}
	})
	require.True(t, yes > 0 && no > 0, "both answers are met")
}
