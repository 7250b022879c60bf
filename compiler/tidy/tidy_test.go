package tidy_test

import (
	"context"
	"fmt"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/tidy"
	"ferrule/out/workbook"
)

// never holds the codes of mistakes that a careful person's catalogue does not have.
var never = []string{
	"sheet-ignored", "sheet-twice", "part-out-of-place", "family-missing", "cell-dragged", "vehicles-blank", "years-ahead", "quantity-odd",
	"reason-missing", "cell-comment", "cell-colour", "cell-number-mangled", "quantity-malformed", "size-malformed", "quantity-disagrees", "protection-lost",
	"value-invalid", "header-unknown", "reference-unknown", "part-unknown", "condition-malformed", "fitment-malformed", "order-reversed", "column-sorted",
}

// TestNoFalseAlarm holds that tidy catalogues in every style have none of these, and that
// they are whole: every platform has vehicles and something fitted.
func TestNoFalseAlarm(t *testing.T) {
	for seed := range uint64(catalogues()) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			require.NoError(t, workbook.Write(dir, tidy.Faultless(seed, 3)))
			res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01", Workers: 1, Brief: true})
			require.NoError(t, err)
			require.Len(t, res.Catalogue.Platforms, 3)
			require.Len(t, res.Catalogue.Positions, 15)
			assert.Greater(t, len(res.Catalogue.Fitments), 300)
			for _, f := range res.Findings {
				assert.False(t, slices.Contains(never, string(f.Code)), "%s at %v: %s", f.Code, f.Cells, f.Message)
			}
		})
	}
}

// catalogues is how many are made: few at hand, and more where CI is set.
func catalogues() int {
	if os.Getenv("CI") != "" {
		return 50
	}
	return 15
}
