package exist_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/ask/exist"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/out/data"
	"ferrule/out/report"
	"ferrule/schema"
)

// irregular makes a catalogue of vehicles without any plan over 24 traits.
func irregular() *model.Catalogue {
	r := rand.New(rand.NewPCG(3, 4))
	cat := &model.Catalogue{Platforms: []*model.Platform{{Name: "H7", Years: []int{2004, 2005}}}}
	for i := range 24 {
		t := &model.Trait{Index: i, Name: fmt.Sprintf("Trait %c", 'A'+i)}
		for k := range 6 {
			t.Values = append(t.Values, &model.Value{Name: fmt.Sprintf("v%d", k)})
		}
		cat.Traits = append(cat.Traits, t)
	}
	for range 600 {
		v := &model.Vehicles{When: model.When{Platforms: cat.Platforms}}
		for _, t := range cat.Traits {
			set := space.All(6)
			if r.IntN(3) == 0 {
				set = space.SetOf(r.IntN(6), r.IntN(6), r.IntN(6))
			}
			v.When.Traits = append(v.When.Traits, model.TraitSet{Trait: t, Values: set})
		}
		cat.Vehicles = append(cat.Vehicles, v)
	}
	return cat
}

// Of vehicles that are over the budget nothing is said but that.
func TestTooIrregular(t *testing.T) {
	l := exist.NewLister(irregular())
	list, err := l.List(t.Context())
	require.NoError(t, err)
	require.False(t, list[0].Exact)
	var text, json bytes.Buffer
	require.NoError(t, report.Vehicles(&text, list, report.Options{}))
	assert.Equal(t, "H7\n  too irregular to be worked out\n", text.String())
	require.NoError(t, data.Vehicles(&json, list))
	assert.Contains(t, json.String(), `"exact": false`)
	require.NoError(t, schema.ValidatePublished("vehicles.schema.json", json.Bytes()))

	all, err := l.Propose(t.Context())
	require.NoError(t, err)
	assert.Equal(t, "its vehicles are too irregular to be worked out", all[0].Why)
	json.Reset()
	require.NoError(t, data.Proposals(&json, all))
	require.NoError(t, schema.ValidatePublished("vehicles.schema.json", json.Bytes()))
	text.Reset()
	require.NoError(t, report.Proposals(&text, all, exist.Table{}, exist.Table{}, report.Options{}))
	assert.Equal(t, "H7\n  nothing is proposed in place of 600 of Vehicles: its vehicles are too\n  irregular to be worked out\n", text.String())
}
