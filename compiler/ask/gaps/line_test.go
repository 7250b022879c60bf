package gaps_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/ask/gaps"
	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/out/data"
	"ferrule/sheets/cell"
)

// numbered is a catalogue of one platform with the numbers 1 to 12 and A1 to A4; a cell says what is
// fitted from 9 on.
func numbered(t *testing.T) *model.Catalogue {
	t.Helper()
	extent, err := line.Serial.Extent("1-12, A1-A4")
	require.NoError(t, err)
	p := &model.Platform{Name: "H7", Years: []int{2004}}
	number := &model.Trait{Name: "Number", Kind: model.Serial, Extents: []model.Extent{{Values: extent}}}
	pos := &model.Position{Name: "Damper"}
	pos.Rows = []*model.PositionRow{{Position: pos, Quantity: 1}}
	part := &model.Part{Number: "QX-1", Known: true}
	all := model.TraitSet{Trait: number, Values: space.Set{}, Line: &model.Line{Not: true}}
	late := model.TraitSet{Trait: number, Values: space.Set{}, Line: &model.Line{Ranges: line.SetOf(line.Range{From: 9, To: 12})}}
	row := &model.Fitment{When: model.When{Traits: []model.TraitSet{late}}, At: cell.Place{Sheet: &cell.Sheet{File: "c.xlsx", Name: "Fitment"}}}
	row.Cells = []*model.FitCell{{Row: row, Position: pos, At: row.At, Fits: &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{{{Part: part}}}}}}
	return &model.Catalogue{Platforms: []*model.Platform{p}, Traits: []*model.Trait{number}, Positions: []*model.Position{pos}, Parts: []*model.Part{part},
		Fitments: []*model.Fitment{row}, Vehicles: []*model.Vehicles{{When: model.When{Traits: []model.TraitSet{all}}}}}
}

// A row that is tried is cut where it begins and ends, and is told in closed ranges.
func TestRowsOnNumbers(t *testing.T) {
	cat := numbered(t)
	row, err := gaps.NewReader(cat).Row("QX-1 in Damper where Number = not 3-4, n/a")
	require.NoError(t, err)
	e, err := gaps.If(t.Context(), cat, []*gaps.Row{row})
	require.NoError(t, err)
	require.Len(t, e.Changes, 1)
	c := e.Changes[0]
	require.Len(t, c.Covered.Where, 1)
	assert.Equal(t, "Number 1 to 2, 5 to 8 or A1 to A4", c.Covered.Where[0].String())
	require.Len(t, c.Agrees.Where, 1)
	assert.Equal(t, "Number 9 to 12", c.Agrees.Where[0].String())
	out := valid(t, "effect", func(b *bytes.Buffer) error { return data.Effect(b, e) })
	closed := [][2]string{{"1", "2"}, {"5", "12"}, {"A1", "A4"}}
	ranges, absent := row.Where.Traits[0].Ranges()
	assert.False(t, absent)
	for i, r := range ranges {
		assert.Equal(t, closed[i], [2]string{line.Serial.Point(r.First()), line.Serial.Point(r.End())})
	}
	assert.Len(t, ranges, len(closed))
	assert.NotContains(t, out, "999999999999999")

	ranking, err := gaps.Rank(t.Context(), cat, gaps.Options{})
	require.NoError(t, err)
	require.Len(t, ranking.Positions[0].Platforms[0].Pieces, 1)
	assert.Equal(t, "Number 1 to 8 or A1 to A4", ranking.Positions[0].Platforms[0].Pieces[0].Where.String())
	assert.Equal(t, "2004, Number 1", ranking.Positions[0].Platforms[0].Example.String())
	valid(t, "gaps", func(b *bytes.Buffer) error { return data.Gaps(b, ranking) })

	for text, want := range map[string]string{
		"QX-1 in Damper where Number = 13":                 `"13" is outside what Number is on H7 (1 to 12 or A1 to A4); write a number within that`,
		"QX-1 in Damper where Number = A5+":                `"A5+" is outside what Number is on H7 (1 to 12 or A1 to A4); write a number within that`,
		"QX-1 in Damper where Number = after 9, Years=any": `"after 9" leaves open whether 9 belongs to it; write from 9 where it does, or from 10 where it does not`,
	} {
		_, err := gaps.NewReader(cat).Row(text)
		assert.EqualError(t, err, want)
	}
}
