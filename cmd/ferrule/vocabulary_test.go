package main

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/schema"
)

// TestKindsAreSpelledOnce holds that a kind of sheet is spelled in schema and asked for
// everywhere else. What writes JSON and texts prints words of its own which read the same:
// names of fields, and what stands before a line; it decides nothing by them.
func TestKindsAreSpelledOnce(t *testing.T) {
	spelled := map[string]int{}
	eachText(t, func(pkg, text string) {
		switch {
		case !slices.Contains(schema.Kinds(), text):
		case pkg == "schema":
			spelled[text]++
		case !slices.Contains([]string{"out/data", "out/report", "compiler/wire", "compiler/release/staff"}, pkg):
			assert.Failf(t, "a kind of sheet is spelled", "%s spells %q; write schema.%s", pkg, text, schema.Title(text))
		}
	})
	for _, kind := range schema.Kinds() {
		assert.NotZero(t, spelled[kind], kind)
	}
}
