package fleet

import (
	"bytes"
	"encoding/csv"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/markup"
)

// TestCSVIsThatOfTheStandardLibrary holds that texts stand as the standard library writes them once they are harmless,
// and that it reads them back.
func TestCSVIsThatOfTheStandardLibrary(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	signs := []string{"a", "Z", "9", " ", ",", `"`, "\n", "\r", "\t", "=", "-", "@", ".", `\`, "é", "\u200b", "\u00a0", "'", ";", "/"}
	for range 20_000 {
		row, want := make([]any, 3), make([]string, 3)
		for i := range row {
			text := ""
			for range r.IntN(5) {
				text += signs[r.IntN(len(signs))]
			}
			row[i], want[i] = text, harmless(text)
		}
		var got, standard bytes.Buffer
		require.NoError(t, CSV(&got, markup.Long{Columns: []markup.LongColumn{{Title: "A"}, {Title: "-B"}, {Title: "C, D"}},
			Rows: func(yield func([]any) error) error { return yield(row) }}))
		out := csv.NewWriter(&standard)
		require.NoError(t, out.WriteAll([][]string{{"A", "'-B", "C, D"}, want}))
		require.Equal(t, standard.String(), got.String(), "%q", row)
	}
}

func TestCSVTellsThatNobodyTakesIt(t *testing.T) {
	long := markup.Long{Columns: []markup.LongColumn{{Title: "A"}}, Rows: func(yield func([]any) error) error {
		for range 10_000 {
			if err := yield([]any{"HD-20"}); err != nil {
				return err
			}
		}
		return nil
	}}
	assert.ErrorIs(t, CSV(full{}, long), assert.AnError)
}

// full takes nothing.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, assert.AnError }
