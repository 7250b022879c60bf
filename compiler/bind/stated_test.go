package bind

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// What Stated writes is read, where `any` and `not` reach over values only, as exactly the set.
func TestStatedReadsBack(t *testing.T) {
	cat := spoken(t)
	w := NewWords(cat)
	rapid.Check(t, func(t *rapid.T) {
		tr := rapid.SampledFrom(cat.Traits).Draw(t, "trait")
		set := space.SetOf(rapid.SliceOfNDistinct(rapid.IntRange(0, tr.Absent()), 1, tr.Absent()+1, rapid.ID).Draw(t, "values")...)
		union := space.Set{}
		for _, cell := range w.Stated(model.TraitSet{Trait: tr, Values: set}) {
			back, err := w.ReadStated(tr, cell)
			require.NoError(t, err, cell)
			require.False(t, back.Values.Meets(union), "%q says again what another cell says", cell)
			union = union.Or(back.Values)
		}
		require.True(t, union.Equal(set), "%s, not %s", union, set)
	})
	assert.Equal(t, []string{"any"}, w.Stated(cat.Traits[1].Is(0, 1, 2, 3, 4)))
	assert.Equal(t, []string{"6.3 t or 9.0 t or n/a"}, w.Stated(cat.Traits[1].Is(0, 4, 5)))
}

// Sets of stretches are written as cells that read back to them, as conditions and in Vehicles.
func TestStretchesReadBack(t *testing.T) {
	p := &model.Platform{Name: "H7"}
	extents := map[model.TraitKind]string{model.Serial: "0-99, A100-A999, B1", model.Date: "2003-01 to 2008-02"}
	cuts := map[model.TraitKind][]string{model.Serial: {"7", "from 50", "A100", "to A500"}, model.Date: {"2004-02", "from 2004-02-29", "2006-12-31", "to 2007-06"}}
	for kind, extent := range extents {
		tr := &model.Trait{Name: "Plate", Kind: kind}
		values, err := kind.Line().Extent(extent)
		require.NoError(t, err)
		tr.Extents = []model.Extent{{Values: values}}
		var by []line.Set
		for _, text := range cuts[kind] {
			r, err := kind.Line().Range(text)
			require.NoError(t, err)
			by = append(by, line.Set{r})
		}
		local := tr.Cut(p, by)
		w := NewWords(&model.Catalogue{Traits: []*model.Trait{tr}})
		require.Greater(t, len(local.Values), 5)
		rapid.Check(t, func(t *rapid.T) {
			set := local.Is(rapid.SliceOfNDistinct(rapid.IntRange(0, local.Absent()), 1, local.Absent()+1, rapid.ID).Draw(t, "values")...)
			stated, cells := w.Stated(set), w.Cells(set)
			require.Len(t, stated, 1)
			require.Len(t, cells, 1)
			back, err := w.ReadStated(tr, stated[0])
			require.NoError(t, err)
			require.True(t, back.On(local).Equal(set.Values), "%q is %s, not %s", stated[0], back.On(local), set.Values)
			cond, restricts, err := w.Values(tr, cells[0])
			require.NoError(t, err)
			require.True(t, restricts)
			require.True(t, cond.On(local).Equal(set.Values), "%q is %s, not %s", cells[0], cond.On(local), set.Values)
		})
	}
}
