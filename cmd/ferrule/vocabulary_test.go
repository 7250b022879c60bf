package main

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/schema"
)

// TestKindsAreSpelledOnce holds that a kind of sheet is spelled in schema and asked for
// everywhere else. out/data and out/report print words of their own which read the same:
// names in JSON, and what stands before a line; they decide nothing by them.
func TestKindsAreSpelledOnce(t *testing.T) {
	spelled := map[string]int{}
	eachText(t, func(pkg, text string) {
		switch {
		case !slices.Contains(schema.Kinds(), text):
		case pkg == "schema":
			spelled[text]++
		case pkg != "out/data" && pkg != "out/report":
			assert.Failf(t, "a kind of sheet is spelled", "%s spells %q; write schema.%s", pkg, text, schema.Title(text))
		}
	})
	for _, kind := range schema.Kinds() {
		assert.NotZero(t, spelled[kind], kind)
	}
}
