package enumerate

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestEditsTellNoSlip holds that random edits, as hands make them, are hardly ever taken for
// a column that was sorted alone or a fill: single cells that change, rows and vehicles that
// come, go and move.
func TestEditsTellNoSlip(t *testing.T) {
	told := 0
	for seed := range diffSeeds() {
		for _, f := range sinceOf(t, generate(uint64(seed)).folder(t), mutant(uint64(seed), 4, 1+seed%5).folder(t)).Findings {
			if strings.Contains(f.Message, "nothing else in their rows has changed") {
				t.Logf("seed %d: %s", seed, f.Message)
				told++
			}
		}
	}
	assert.Zero(t, told)
}
