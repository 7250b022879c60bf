package compare

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/finding"
	"ferrule/sheets/cell"
)

// TestToldAnyway holds what a slip is not told beside: of a column that was sorted, another
// finding about any cell of the column; of cells that a fill went over, one about a cell of them.
func TestToldAnyway(t *testing.T) {
	sheet := &cell.Sheet{File: "c.xlsx", Name: "Fitment"}
	at := func(code finding.Code, row, col int32) *finding.Finding {
		return &finding.Finding{Code: code, Cells: finding.At(cell.Place{Sheet: sheet, Pos: cell.Pos{Row: row, Col: col}})}
	}
	assert.True(t, tells(at(finding.ColumnSorted, 2, 3), at(finding.ColumnSorted, 9, 3)))
	assert.False(t, tells(at(finding.ColumnSorted, 2, 3), at(finding.ColumnSorted, 2, 4)), "another column")
	assert.True(t, tells(at(finding.CellDragged, 2, 3), at(finding.CellDragged, 2, 3)))
	assert.False(t, tells(at(finding.CellDragged, 2, 3), at(finding.CellDragged, 9, 3)), "another cell")
	assert.False(t, tells(at(finding.ColumnSorted, 2, 3), at(finding.CellDragged, 2, 3)), "another slip")
	known := at(finding.CellDragged, 2, 3)
	known.Known = true
	assert.False(t, tells(known, at(finding.CellDragged, 2, 3)), "what is not told")
}
