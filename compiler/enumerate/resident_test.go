package enumerate

import (
	"bytes"
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/out/report"
)

// toldBy is all that a run tells: the findings as JSON, and what guides count.
func toldBy(t testing.TB, res *compiler.Result) string {
	t.Helper()
	var out bytes.Buffer
	f, err := report.New("json", report.Options{})
	require.NoError(t, err)
	require.NoError(t, f.Format(&out, res))
	for _, g := range res.Guides {
		fmt.Fprintf(&out, "%s %v %v %v\n", g.Platform.Name, g.Configurations, g.OnTheRoad, g.Traits)
		require.Same(t, res.Catalogue.Platforms[g.Platform.Index], g.Platform)
		for _, a := range g.Answers {
			require.Same(t, res.Catalogue.Positions[a.Position.Index], a.Position)
			fmt.Fprintln(&out, a.Position.Name, a.Exact, a.Configurations, a.Counts, a.Road)
		}
		for _, r := range g.Rules {
			fmt.Fprintln(&out, r.Rule.At, r.Where)
		}
	}
	return out.String()
}

// TestResidentSaysWhatCompileSays edits random catalogues one change at a time, as hands do, and
// holds what a compiler that stays says against what one that begins anew does, each time.
func TestResidentSaysWhatCompileSays(t *testing.T) {
	reused, platforms := 0, 0
	o := compiler.Options{Today: "2027-03-01"}
	for seed := range diffSeeds() {
		var stays compiler.Resident
		for _, changes := range []int{0, 0, 1, 2, 3, 4, 4, 6, 0} {
			in := compiler.Input{Paths: []string{mutant(uint64(seed), 7, changes).folder(t)}}
			again, err := stays.Compile(context.Background(), in, o)
			require.NoError(t, err)
			anew, err := compiler.Compile(context.Background(), in, o)
			require.NoError(t, err)
			require.Equal(t, toldBy(t, anew), toldBy(t, again), "seed %d after %d changes", seed, changes)
			reused, platforms = reused+stays.Reused(), platforms+len(again.Guides)
		}
	}
	t.Log(reused, "of", platforms)
	require.Greater(t, reused, platforms/5)
}
