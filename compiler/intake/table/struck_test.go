package table

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets"
)

func TestPartlyStruck(t *testing.T) {
	rows := sheet("Kit|Part\nK|D or E")
	rows[1].Cells[1].Partly = true
	got, told := read(rows, nil)
	assert.Equal(t, "2: Kit K A2, Part D or E B2", values(got), "it is read like the rest")
	require.Equal(t, []string{"struck B2"}, said(told))
	assert.Equal(t, `a part of "D or E" is struck through, and all of it is read`, told[0].Message)

	rows[1].Cells[1].Value = sheets.Value{Kind: sheets.Text, Text: "D or E", Struck: true}
	_, told = read(rows, nil)
	require.Equal(t, []string{"struck B2"}, said(told), "a cell that is struck whole is told as before")
	assert.Contains(t, told[0].Message, `"D or E" is struck through, and is read`)
}
