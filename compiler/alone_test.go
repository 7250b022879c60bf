package compiler_test

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/judge"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/check"
	"ferrule/compiler/model"
	"ferrule/compiler/tidy/share"
)

// TestEachCheckAlone holds that no check depends on another one: alone, with what it says
// that it requires, each tells what it tells among all others.
func TestEachCheckAlone(t *testing.T) {
	files, err := filepath.Glob("testdata/cases/*/*.txtar")
	require.NoError(t, err)
	told := map[finding.Code]int{}
	step := share.Step(t)
	for i, file := range files {
		a, err := txtar.ParseFile(file)
		require.NoError(t, err)
		now, _ := parted(a)
		dir := t.TempDir()
		writeCase(t, dir, now)
		res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Unchecked: true})
		require.NoError(t, err)
		if res.Catalogue == nil {
			continue
		}
		among := judged(t, res.Catalogue, nil)
		for k, c := range check.All() {
			if own := string(c.Kind.Code) == filepath.Base(filepath.Dir(file)); !own && (i+k)%step > 0 {
				continue
			}
			alone := judged(t, res.Catalogue, []*check.Check{c})
			code := c.Kind.Code
			told[code] += len(alone[code])
			assert.Equal(t, among[code], alone[code], "%s alone in %s", code, file)
			delete(alone, code)
			assert.Empty(t, alone, "%s tells something else", code)
		}
	}
	for _, c := range check.All() {
		assert.NotZero(t, told[c.Kind.Code], "%s tells nothing anywhere", c.Kind.Code)
	}
}

// judged gives the findings of some checks, nil for all, by their codes.
func judged(t *testing.T, cat *model.Catalogue, checks []*check.Check) map[finding.Code][]finding.Finding {
	t.Helper()
	out := map[finding.Code][]finding.Finding{}
	_, err := judge.Platforms(context.Background(), cat, judge.Options{Ledger: accept.New(cat, "2027-03-01"), Use: accept.Use{}, Checks: checks},
		func(f *finding.Finding) { out[f.Code] = append(out[f.Code], *f) })
	require.NoError(t, err)
	return out
}
