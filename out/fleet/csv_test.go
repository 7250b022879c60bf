package fleet_test

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/fleet"
	"ferrule/out/markup"
)

// TestNothingIsCalculated writes what a spreadsheet program would calculate, as a heading and as a cell: it stands there as a
// text, and all else as it is.
func TestNothingIsCalculated(t *testing.T) {
	formulas := []string{"=1+1", "+1", "-2+3", "@SUM(1)", "\uff1d1+1", "\uff0b1", "\uff0d1", "\uff201"}
	others := []string{"H7", "1-2", "a=b", "\u2212 a minus of its own", "", "\"quoted\", with a comma"}
	for _, text := range append(formulas, others...) {
		table := markup.Long{Columns: []markup.LongColumn{{Title: text}, {Title: "n"}}, Rows: func(each func([]any) error) error { return each([]any{text, int64(-3)}) }}
		var out strings.Builder
		require.NoError(t, fleet.CSV(&out, table))
		rows, err := csv.NewReader(strings.NewReader(out.String())).ReadAll()
		require.NoError(t, err)
		want := text
		for _, f := range formulas {
			if text == f {
				want = "'" + text
			}
		}
		assert.Equal(t, [][]string{{want, "n"}, {want, "-3"}}, rows)
	}
}
