package compiler_test

import (
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/out/markup"
	"ferrule/sheets/cell"
)

// TestFingerprintsStay holds that no finding of a case that fires becomes another one when rows
// are inserted above: whoever quotes an address, a row number or a formula in a message
// has to say in Constant what is meant.
func TestFingerprintsStay(t *testing.T) {
	files, err := filepath.Glob("testdata/cases/*/fires.txtar")
	require.NoError(t, err)
	for _, file := range files {
		name := strings.TrimSuffix(strings.TrimPrefix(filepath.ToSlash(file), "testdata/cases/"), ".txtar")
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			a, err := txtar.ParseFile(file)
			require.NoError(t, err)
			assert.Equal(t, fingerprints(t, a, 0), fingerprints(t, a, 3))
		})
	}
}

func fingerprints(t *testing.T, a *txtar.Archive, down int) []string {
	t.Helper()
	var out []string
	for _, f := range caseFindings(t, a, down) {
		out = append(out, string(f.Code)+" "+f.Fingerprint())
	}
	slices.Sort(out)
	return out
}

// moveBooks puts empty rows above each sheet.
func moveBooks(books []markup.Book, down int) {
	for _, b := range books {
		for i := range b.Sheets {
			s := &b.Sheets[i]
			s.Rows = append(make([][]markup.Cell, down), s.Rows...)
			for k := range s.HiddenRows {
				s.HiddenRows[k] += int32(down)
			}
			for k := range s.Merges {
				s.Merges[k] = movedRange(s.Merges[k], down)
			}
			if s.Name == "Layouts" {
				moveLayouts(s.Rows, down)
			}
			if down > 0 {
				s.Header = max(s.Header, 1) + down
			}
		}
	}
}

// rowNumbers are those that a row of Layouts names.
var rowNumbers = regexp.MustCompile(`(header |rows |-|cell [A-Z]+)(\d+)\b`)

// moveLayouts lets rows of Layouts name rows where they stand now.
func moveLayouts(rows [][]markup.Cell, down int) {
	for _, row := range rows {
		for i := range row {
			if !strings.HasPrefix(row[i].Text, "header ") && !strings.HasPrefix(row[i].Text, "cell ") {
				continue
			}
			row[i].Text = rowNumbers.ReplaceAllStringFunc(row[i].Text, func(said string) string {
				m := rowNumbers.FindStringSubmatch(said)
				n, _ := strconv.Atoi(m[2])
				return m[1] + strconv.Itoa(n+down)
			})
		}
	}
}

func moveMerges(t *testing.T, fields []string, down int) []string {
	t.Helper()
	out := slices.Clone(fields)
	for i := 2; i < len(out); i += 3 {
		r, ok := cell.ParseRange(out[i])
		require.True(t, ok, out[i])
		out[i] = movedRange(r, down).String()
	}
	return out
}

func movedRange(r cell.Range, down int) cell.Range {
	r.From.Row += int32(down)
	r.To.Row += int32(down)
	return r
}
