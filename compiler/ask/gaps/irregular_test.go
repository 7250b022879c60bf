package gaps_test

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/ask/gaps"
	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/out/data"
	"ferrule/out/report"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// irregular makes a catalogue of rows without any plan over 24 traits: no gap of it can be
// worked out within the budget.
func irregular() *model.Catalogue {
	r := rand.New(rand.NewPCG(3, 4))
	p := &model.Platform{Name: "H7", Years: []int{2004, 2005}}
	pos := &model.Position{Name: "Damper", Rows: []*model.PositionRow{{Quantity: 2}}}
	pos.Rows[0].Position = pos
	cat := &model.Catalogue{Platforms: []*model.Platform{p}, Positions: []*model.Position{pos},
		Parts: []*model.Part{{Number: "QX-1", Known: true}, {Number: "QX-2", Known: true}}}
	v := &model.Vehicles{}
	for i := range 24 {
		t := &model.Trait{Index: i, Name: fmt.Sprintf("Trait %c", 'A'+i), Effort: 1}
		for k := range 6 {
			t.Values = append(t.Values, &model.Value{Name: fmt.Sprintf("v%d", k)})
		}
		cat.Traits = append(cat.Traits, t)
		v.When.Traits = append(v.When.Traits, model.TraitSet{Trait: t, Values: space.All(6)})
	}
	cat.Vehicles = []*model.Vehicles{v}
	sheet := &cell.Sheet{File: "made.xlsx", Name: "Fitment"}
	for i := range 500 {
		f := &model.Fitment{Index: i, At: cell.Place{Sheet: sheet, Pos: cell.Pos{Row: int32(i + 2), Col: 1}}}
		for _, t := range cat.Traits {
			if r.IntN(3) == 0 {
				f.When.Traits = append(f.When.Traits, model.TraitSet{Trait: t, Values: space.SetOf(r.IntN(6), r.IntN(6), r.IntN(6))})
			}
		}
		f.Cells = []*model.FitCell{{Row: f, Position: pos, At: f.At,
			Fits: &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{{{Part: cat.Parts[0]}}}}}}
		cat.Fitments = append(cat.Fitments, f)
	}
	return cat
}

// valid holds JSON against its schema and gives it.
func valid(t *testing.T, name string, write func(*bytes.Buffer) error) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, write(&b))
	require.NoError(t, schema.ValidatePublished(name+".schema.json", b.Bytes()))
	return b.String()
}

// TestTooIrregular holds that where a gap cannot be worked out nothing is guessed, and
// that one vehicle is answered for all the same.
func TestTooIrregular(t *testing.T) {
	cat := irregular()
	ctx := context.Background()
	r, err := gaps.Rank(ctx, cat, gaps.Options{})
	require.NoError(t, err)
	require.Len(t, r.Positions, 1)
	assert.False(t, r.Positions[0].Platforms[0].Exact)
	assert.NotNil(t, r.Positions[0].Platforms[0].Example)
	assert.Contains(t, valid(t, "gaps", func(b *bytes.Buffer) error { return data.Gaps(b, r) }), `"exact": false`)
	var text bytes.Buffer
	require.NoError(t, report.Gaps(&text, r, 5, report.Options{}))
	assert.Contains(t, text.String(), "H7: too irregular to be counted\n")

	row, err := gaps.NewReader(cat).Row("QX-2 in Damper where Trait A = v0")
	require.NoError(t, err)
	e, err := gaps.If(ctx, cat, []*gaps.Row{row})
	require.NoError(t, err)
	require.Len(t, e.Changes, 1)
	assert.False(t, e.Changes[0].Exact)
	valid(t, "effect", func(b *bytes.Buffer) error { return data.Effect(b, e) })
	text.Reset()
	require.NoError(t, report.Effect(&text, e, report.Options{}))
	assert.Contains(t, text.String(), "too irregular to be worked out\n")
	assert.NotContains(t, text.String(), "nothing would change")

	desk := pick.NewLookup(cat)
	all, err := desk.Query("H7", "", nil)
	require.NoError(t, err)
	l, err := desk.List(ctx, all)
	require.NoError(t, err)
	assert.False(t, l.Positions[0].Exact)
	assert.Nil(t, l.Positions[0].Certain())
	valid(t, "pick", func(b *bytes.Buffer) error { return data.Pick(b, l) })

	answers := []string{"Years=2004"}
	for _, trait := range cat.Traits {
		answers = append(answers, trait.Name+"=v1")
	}
	one, err := desk.Query("H7", "", answers)
	require.NoError(t, err)
	l, err = desk.List(ctx, one)
	require.NoError(t, err)
	assert.NotNil(t, l.Positions[0].Certain())
	y, err := desk.Why(ctx, one, pick.Focus{})
	require.NoError(t, err)
	valid(t, "why", func(b *bytes.Buffer) error { return data.Why(b, y) })
}
