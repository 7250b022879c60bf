package enumerate

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMergedRow: a row in which every cell is covered by merged ranges is not
// empty, since a covered cell has the value of its range's first cell. Row 2
// says A-1 for H7 in 2001; row 3 shares its Platform and its cell, and says
// A-1 for H7 in any year. So 2002 is fitted as well.
func TestMergedRow(t *testing.T) {
	b := &openCatalogue{}
	b.files = []string{"a.xlsx"}
	b.add("a.xlsx", "Platforms", "Platform", "Years").put("Platform", "H7", "Years", "2001-2002")
	b.add("a.xlsx", "Traits", "Trait", "Value").put("Trait", "T", "Value", "a")
	b.add("a.xlsx", "Vehicles", "Platform", "T").put("Platform", "H7", "T", "a")
	b.add("a.xlsx", "Positions", "Position").put("Position", "Bar")
	b.add("a.xlsx", "Parts", "Part").put("Part", "A-1")
	s := b.add("a.xlsx", "Fitment", "Platform", "Years", "Bar")
	first := s.put("Platform", "H7", "Years", "2001", "Bar", "A-1")
	second := s.put("Platform", "H7", "Bar", "A-1")
	for _, column := range []string{"Platform", "Bar"} {
		s.merges = append(s.merges, merge{column: column, rows: []*row{first, second}})
	}
	dir := t.TempDir()
	require.NoError(t, b.write(dir))
	out := compile(t, dir)
	require.Len(t, out.coverage, 1)
	require.Len(t, out.coverage[0].Positions, 1)
	assert.Equal(t, 2, out.coverage[0].Positions[0].Fitted)
	assert.Equal(t, 0, out.coverage[0].Positions[0].Gap)
}
