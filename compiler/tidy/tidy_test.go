package tidy_test

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/tidy"
	"ferrule/out/workbook"
)

// never holds the codes of mistakes that a careful person's catalogue does not have.
var never = []string{
	"sheet-ignored", "sheet-twice", "part-out-of-place", "family-missing", "cell-dragged", "vehicles-blank", "years-ahead", "quantity-odd",
	"reason-missing", "cell-comment", "cell-colour", "cell-number-mangled", "quantity-malformed", "size-malformed", "quantity-disagrees", "protection-lost",
	"value-invalid", "header-unknown", "reference-unknown", "part-unknown", "condition-malformed", "fitment-malformed", "order-reversed", "column-sorted",
	"sides-differ", "side-missing", "side-quantity", "pair-conflict",
}

// TestNoFalseAlarm holds that tidy catalogues in every style have none of these, and that
// they are whole: every platform has vehicles and something fitted.
func TestNoFalseAlarm(t *testing.T) {
	for seed := range uint64(catalogues()) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			res := compiled(t, tidy.Faultless(seed, 3))
			require.Len(t, res.Catalogue.Platforms, 3)
			require.Len(t, res.Catalogue.Positions, 17)
			assert.Greater(t, len(res.Catalogue.Fitments), 300)
			for _, f := range res.Findings {
				assert.False(t, slices.Contains(never, string(f.Code)), "%s at %v: %s", f.Code, f.Cells, f.Message)
			}
		})
	}
}

// TestTeesAreHeld has every fitting on the left be the one for a line without a tee: in every
// style that is told.
func TestTeesAreHeld(t *testing.T) {
	for seed := range uint64(tidy.Styles) * 2 {
		sheets := tidy.Faultless(seed, 3)
		plain := ""
		for _, s := range sheets {
			for _, r := range s.Rows[1:] {
				at, tee := leftFitting(s.Rows[0], r), slices.Index(s.Rows[0], "Spring line tee")
				switch {
				case at < 0:
				case strings.HasPrefix(r[tee], "None"):
					plain = r[at]
				default:
					r[at] = plain
				}
			}
		}
		told := slices.ContainsFunc(compiled(t, sheets).Findings, func(f *finding.Finding) bool { return f.Code == finding.SidesDiffer })
		assert.True(t, told, "seed %d", seed)
	}
}

// leftFitting gives the column in which a row says what is fitted on the left, -1 for none.
func leftFitting(header, row []string) int {
	at := slices.Index(header, "Line fitting left")
	if i := slices.Index(header, "Position"); i >= 0 && slices.Contains(header, "Fits") && row[i] == "Line fitting left" {
		at = slices.Index(header, "Fits")
	}
	if at < 0 || row[at] == "" {
		return -1
	}
	return at
}

func compiled(t *testing.T, sheets []tidy.Sheet) *compiler.Result {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, workbook.Write(dir, sheets))
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01", Workers: 1, Brief: true})
	require.NoError(t, err)
	return res
}

// catalogues is how many are made: few at hand, and more where CI is set.
func catalogues() int {
	if os.Getenv("CI") != "" {
		return 50
	}
	return 15
}
