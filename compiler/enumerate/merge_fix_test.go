package enumerate

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestMergedAsTold does what rows-mergeable says: it writes the text of the
// message into the first row, takes the others out, and has the catalogue
// built again. Then all is compared once more, so that the text must mean to
// the program what it means to a reader. (That nothing changes is compared
// wherever the finding is told.)
func TestMergedAsTold(t *testing.T) {
	columns, wanted := map[string]int{}, usual(1, 8)
	for seed := uint64(0); seed < 400 && min(columns["Years"], columns["trait"]) < wanted; seed++ {
		c := generate(seed)
		out, problems := attempt(c, t.TempDir())
		require.Empty(t, problems, "seed %d", seed)
		at := slices.IndexFunc(out.findings, func(f finding) bool { return f.Code == "rows-mergeable" })
		if at < 0 {
			continue
		}
		j, err := c.joint(out.findings[at])
		require.NoError(t, err)
		require.NoError(t, c.apply(j))
		require.Empty(t, try(c, t.TempDir()), "seed %d: %s", seed, out.findings[at].Message)
		if j.column == "Years" {
			columns["Years"]++
		} else {
			columns["trait"]++
		}
	}
	require.GreaterOrEqual(t, columns["Years"], wanted)
	require.GreaterOrEqual(t, columns["trait"], wanted)
}

// apply writes the one row and takes the others out.
func (c *catalogue) apply(j joint) error {
	one, err := j.row(c)
	if err != nil {
		return err
	}
	first := j.rows[0]
	first.conds = one.conds
	first.cells[j.column] = j.text
	for _, r := range j.rows[1:] {
		r.gone = true
	}
	for _, s := range c.sheets {
		s.merges = slices.DeleteFunc(s.merges, func(m merge) bool {
			return m.column == j.column && slices.Contains(m.rows, first.row)
		})
	}
	return nil
}
