package fleet

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// A sheet that is gone through again may have other columns in the same places: what a row said then is void.
func TestSheetGoneThroughAgain(t *testing.T) {
	cat := &model.Catalogue{Platforms: []*model.Platform{{Name: "H7", Years: []int{2004}}}}
	for i, name := range []string{"Front axle", "Rear axle"} {
		cat.Traits = append(cat.Traits, &model.Trait{Index: i, Name: name, Values: []*model.Value{{Name: "Air"}, {Name: "Leaf"}}})
	}
	r := &reader{f: New(cat), faults: map[cell.Place]*finding.Finding{}}
	sheet := &cell.Sheet{Name: "Fleet"}
	var said []string
	for _, heading := range []string{"Front axle", "Rear axle"} {
		take := r.begin(&table.Table{Sheet: sheet, Columns: []table.Column{{Name: "Platform"}, {Name: heading}}})
		take(&table.Record{Row: 2, Fields: []table.Field{{Column: 0, Text: "H7"}, {Column: 1, Text: "Air"}}})
		require.Len(t, r.sheets, 1)
		said = append(said, says(r.sheets[0].rows[0].group.told))
	}
	assert.Equal(t, []string{"H7, Front axle Air", "H7, Rear axle Air"}, said)
}
