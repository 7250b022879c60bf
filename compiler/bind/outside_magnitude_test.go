package bind

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
)

// Words from outside name a value by what it measures, however that is written; sheets of the catalogue do not.
func TestValuesByWhatTheyMeasure(t *testing.T) {
	rating := &model.Trait{Name: "Rating", Kind: model.Ordered, Values: []*model.Value{
		{Name: "7.1 t"}, {Name: "8.0 t"}, {Name: "12 in"}, {Name: "max 9 t"}, {Name: "5 t"}, {Name: "5000 kg"}}}
	cat := &model.Catalogue{Platforms: []*model.Platform{{Name: "H7", Years: []int{2004}}}, Traits: []*model.Trait{rating}}
	w := Outside(cat)
	for said, want := range map[string]string{"8 t": "Rating 8.0 t", "8,0 t": "Rating 8.0 t", "8000 kg": "Rating 8.0 t", "8.00t": "Rating 8.0 t",
		"1 ft": "Rating 12 in", "7,1 t": "Rating 7.1 t", "from 7100 kg to 8 t": "Rating 7.1 t or 8.0 t"} {
		set, _, err := w.Values(rating, said)
		require.NoError(t, err, said)
		assert.Equal(t, want, model.Box{Traits: []model.TraitSet{set}}.String(), said)
	}
	for _, said := range []string{"8", "8 kg", "8.1 t", "9 t", "8-9 t", "5.0 t", "8,000 kg t"} {
		_, _, err := w.Values(rating, said)
		assert.Error(t, err, said)
	}
	_, _, err := NewWords(cat).Values(rating, "8 t")
	assert.Error(t, err, "a sheet writes the value as it is declared")
}
