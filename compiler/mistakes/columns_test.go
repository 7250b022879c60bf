package mistakes

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/tidy/share"
)

// TestEveryColumnSortedAlone sorts each column of each sheet without the others, and holds
// that it is told on the sheet as what it is, once and as more than a note, where the
// catalogue without the mistake is at hand as the earlier release. Where the same rows come
// of it in another order, nothing was lost.
func TestEveryColumnSortedAlone(t *testing.T) {
	for name, c := range map[string]struct {
		from    origin
		columns int
	}{"demo": {demo, 100}, "starter": {starter, 60}} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			clean, sorted, step := plain(t, open(t, c.from).write(c.from)), 0, share.Step(t)
			for _, b := range open(t, c.from).all {
				for _, s := range b.Sheets {
					for _, head := range s.Rows[max(s.Header, 1)-1] {
						b, changed := sortAlone(t, c.from, s.Name, head.Text)
						if !changed {
							continue
						}
						if sorted%step == 0 {
							toldSorted(t, clean, plain(t, b.write(c.from)), s.Name, head.Text)
						}
						sorted++
					}
				}
			}
			assert.GreaterOrEqual(t, sorted, c.columns, "columns in which sorting changes rows")
		})
	}
}

// sortAlone sorts one column; false where the same rows come of it.
func sortAlone(t *testing.T, from origin, name, head string) (b *books, changed bool) {
	b = open(t, from)
	s := b.sheet(name)
	before := lines(s)
	s.sortColumn(head)
	return b, !slices.Equal(before, lines(s))
}

// toldSorted holds that the column is told as sorted, once and on its sheet.
func toldSorted(t *testing.T, clean, res *compiler.Result, name, head string) {
	hold(t, clean, res)
	told := slices.DeleteFunc(slices.Clone(res.Findings), func(f *finding.Finding) bool {
		return f.Code != "column-sorted" || f.Severity == finding.Note || f.Known || f.Cells[0].Sheet.Name != name
	})
	if assert.Len(t, told, 1, "%s of %s", head, name) {
		named, _, _ := strings.Cut(head, " [")
		assert.Contains(t, told[0].Message, named, "%s of %s", head, name)
	}
}

// plain compiles a catalogue without guides.
func plain(t *testing.T, dir string) *compiler.Result {
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: today, Compare: true, Workers: 1})
	require.NoError(t, err)
	return res
}

// lines gives the rows of a sheet, whatever their order.
func lines(s *sheet) []string {
	var out []string
	for _, r := range s.Rows {
		var texts []string
		for _, c := range r {
			texts = append(texts, c.Text)
		}
		out = append(out, strings.TrimRight(strings.Join(texts, "\t"), "\t"))
	}
	slices.Sort(out)
	return out
}
