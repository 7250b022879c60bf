package cell_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"ferrule/sheets/cell"
)

// TestSet holds sets against maps.
func TestSet(t *testing.T) {
	sheets := []*cell.Sheet{nil, {Name: "A"}, {Name: "B"}}
	rapid.Check(t, func(t *rapid.T) {
		place := func() cell.Place {
			sheet := rapid.SampledFrom(sheets).Draw(t, "sheet")
			edge := func(most int32) int32 {
				return rapid.OneOf(rapid.Int32Range(0, 3), rapid.Int32Range(60, 70), rapid.Int32Range(most-2, most)).Draw(t, "number")
			}
			return cell.Place{Sheet: sheet, Pos: cell.Pos{Row: edge(cell.MaxRow), Col: edge(cell.MaxCol)}}
		}
		var set cell.Set
		want := map[cell.Place]bool{}
		for range rapid.IntRange(0, 40).Draw(t, "cells") {
			if rapid.Bool().Draw(t, "look") {
				p := place()
				assert.Equal(t, want[p], set.Has(p), "%v", p)
				continue
			}
			p := place()
			set.Add(p)
			want[p] = true
		}
		for p := range want {
			assert.True(t, set.Has(p), "%v", p)
		}
		for range 20 {
			p := place()
			assert.Equal(t, want[p], set.Has(p), "%v", p)
		}
	})
}
