package space_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/space"
)

// TestPathsSayWhatNodesSay grows boxes within a fence of paths and by walks over nodes, and
// asks both for the first configuration and for what a box meets.
func TestPathsSayWhatNodesSay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t)
		goal := w.UnionBoxes(w.boxes(t, "goal", 3))
		bad := []space.Region{w.Minus(w.UnionBoxes(w.boxes(t, "bad", 4)), goal)}
		if goal == space.Empty {
			return
		}
		seed, _ := w.First(goal)
		byPaths, byNodes := w.Grown(goal, bad, true), w.Grown(goal, bad, false)
		require.Equal(t, byNodes, byPaths)
		require.Equal(t, seed, w.FirstPath(goal))
		for _, b := range w.boxes(t, "box", 2) {
			require.Equal(t, w.Meets(bad[0], b), w.FenceMeets(bad, b))
		}
	})
}
