package data

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

func TestProperty(t *testing.T) {
	for _, tt := range []struct {
		text string
		unit measure.Unit
		want string
	}{
		{"612.5", measure.Millimetre, `{"number":612.5,"unit":"mm","unit_code":"MMT","ucum":"mm"}`},
		{"60-65.5 ft-lb", measure.NoUnit, `{"from":60,"to":65.5,"unit":"lb·ft","unit_code":"M92","ucum":"[lbf_av].[ft_i]"}`},
		{"10 mm ±0.1", measure.NoUnit, `{"from":9.9,"to":10.1,"unit":"mm","unit_code":"MMT","ucum":"mm"}`},
		{"1/3 in", measure.NoUnit, `{"number":0.3333333333333333,"unit":"in","unit_code":"INH","ucum":"[in_i]"}`},
		{"0 °", measure.NoUnit, `{"number":0,"unit":"°","unit_code":"DD","ucum":"deg"}`},
		{"6 kg/mm", measure.NoUnit, `{"number":6,"unit":"kgf/mm","ucum":"kgf/mm"}`},
		{"4", measure.One, `{"number":4,"unit_code":"C62","ucum":"1"}`},
	} {
		q, err := measure.ParseQuantityIn(tt.text, tt.unit, measure.Options{})
		require.NoError(t, err)
		got, err := json.Marshal(valueOf(q))
		require.NoError(t, err)
		assert.JSONEq(t, tt.want, string(got), tt.text)
	}
	assert.Nil(t, propertyOf(&model.Property{Name: "Colour", Text: "grey"}).Value)
}
