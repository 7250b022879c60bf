package mistakes

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/tidy/share"
	"ferrule/out/report/told"
)

// oneIn is how many mistakes there are for each that a compiler which stays is held against.
const oneIn = 3

// TestResidentSeesMistakes makes mistakes in catalogues that a compiler knows, each after the
// unspoilt catalogue, and holds what it tells against one that begins anew.
func TestResidentSeesMistakes(t *testing.T) {
	step := oneIn * share.Step(t)
	stays, platforms, reused := map[origin]*compiler.Resident{demo: {}, starter: {}, spoken: {}}, 0, 0
	for i, m := range corpus() {
		if i%step != 0 {
			continue
		}
		b := open(t, m.from)
		require.NotEmpty(t, findingsOf(t, stays[m.from].Compile, open(t, m.from).write(m.from)))
		m.do(b)
		dir := b.write(m.from)
		require.Equal(t, findingsOf(t, compiler.Compile, dir), findingsOf(t, stays[m.from].Compile, dir), m.name)
		platforms++
		if stays[m.from].Reused() > 0 {
			reused++
		}
	}
	t.Logf("of %d catalogues with a mistake %d had platforms that were not looked at again", platforms, reused)
	require.GreaterOrEqual(t, reused, platforms/5)
}

// findingsOf gives all findings of a folder.
func findingsOf(t *testing.T, compile func(context.Context, compiler.Input, compiler.Options) (*compiler.Result, error), dir string) string {
	t.Helper()
	res, err := compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: today, Workers: 1})
	require.NoError(t, err)
	return told.By(t, res)
}
