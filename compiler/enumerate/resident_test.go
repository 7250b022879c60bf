package enumerate

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/out/report/told"
)

// residentSeeds is diffSeeds, and half as many at hand, since each takes eighteen runs.
func residentSeeds() int {
	if *seeds <= fewSeeds {
		return diffSeeds() / 2
	}
	return diffSeeds()
}

// TestResidentSaysWhatCompileSays edits random catalogues one change at a time, as hands do, and
// holds what a compiler that stays says against what one that begins anew does, each time.
func TestResidentSaysWhatCompileSays(t *testing.T) {
	reused, platforms := 0, 0
	o := compiler.Options{Today: "2027-03-01"}
	for seed := range residentSeeds() {
		var stays compiler.Resident
		for _, changes := range []int{0, 0, 1, 2, 3, 4, 4, 6, 0} {
			in := compiler.Input{Paths: []string{mutant(uint64(seed), 7, changes).folder(t)}}
			again, err := stays.Compile(context.Background(), in, o)
			require.NoError(t, err)
			anew, err := compiler.Compile(context.Background(), in, o)
			require.NoError(t, err)
			require.Equal(t, told.By(t, anew), told.By(t, again), "seed %d after %d changes", seed, changes)
			reused, platforms = reused+stays.Reused(), platforms+len(again.Catalogue.Platforms)
		}
	}
	t.Log(reused, "of", platforms)
	require.Greater(t, reused, platforms/5)
}
