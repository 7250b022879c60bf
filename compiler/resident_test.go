package compiler_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/tidy"
	"ferrule/compiler/tidy/share"
	"ferrule/out/report/told"
	made "ferrule/out/workbook"
)

// editor edits a tidy catalogue as hands do.
type editor struct {
	*rand.Rand
	sheets []tidy.Sheet
}

// edit makes one change and says which.
func (e *editor) edit() string {
	s := &e.sheets[e.IntN(len(e.sheets))]
	for len(s.Rows) < 3 || e.IntN(3) > 0 && !strings.HasPrefix(s.Name, "Fitment") {
		s = &e.sheets[e.IntN(len(e.sheets))]
	}
	i := 1 + e.IntN(len(s.Rows)-1)
	j := 1 + e.IntN(len(s.Rows)-1)
	row := slices.Clone(s.Rows[i])
	s.Rows = slices.Clone(s.Rows)
	switch e.IntN(6) {
	case 0:
		s.Rows = slices.Delete(s.Rows, i, i+1)
		return fmt.Sprintf("%s: row %d is deleted", s.Name, i+1)
	case 1:
		s.Rows = slices.Insert(s.Rows, j, row)
		return fmt.Sprintf("%s: row %d is copied before row %d", s.Name, i+1, j+1)
	case 2:
		k := e.IntN(len(row))
		row[k] = ""
		s.Rows[i] = row
		return fmt.Sprintf("%s: cell %d of row %d is emptied", s.Name, k+1, i+1)
	case 3:
		k := e.IntN(len(row))
		row[k] += "x"
		s.Rows[i] = row
		return fmt.Sprintf("%s: cell %d of row %d is misspelt", s.Name, k+1, i+1)
	default:
		k := e.IntN(min(len(row), len(s.Rows[j])))
		row[k] = s.Rows[j][k]
		s.Rows[i] = row
		return fmt.Sprintf("%s: cell %d of row %d is copied from row %d", s.Name, k+1, i+1, j+1)
	}
}

// TestResidentFollowsEdits edits tidy catalogues of all styles, and holds a compiler that stays
// against one that begins anew after every edit.
func TestResidentFollowsEdits(t *testing.T) {
	reused, platforms := 0, 0
	for seed := range share.Of(t, 10) {
		e := editor{rand.New(rand.NewPCG(uint64(seed), 5)), tidy.Styled(uint64(seed), 6, tidy.Style(seed)%tidy.Styles)}
		var stays compiler.Resident
		var edits []string
		for range 7 {
			dir := t.TempDir()
			require.NoError(t, made.Write(dir, e.sheets))
			in, o := compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01"}
			again, err := stays.Compile(context.Background(), in, o)
			require.NoError(t, err)
			anew, err := compiler.Compile(context.Background(), in, o)
			require.NoError(t, err)
			require.Equal(t, told.By(t, anew), told.By(t, again), "seed %d: %q", seed, edits)
			reused, platforms = reused+stays.Reused(), platforms+len(again.Catalogue.Platforms)
			edits = append(edits, e.edit())
			t.Log(stays.Reused(), edits[len(edits)-1])
		}
	}
	t.Log(reused, "of", platforms)
	assert.Greater(t, reused, platforms/4)
}
