package wire

import (
	"encoding/json"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/formula"
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
		{"3/8 in", measure.NoUnit, `{"number":0.375,"unit":"in","unit_code":"INH","ucum":"[in_i]"}`},
		{"max 120 psi", measure.NoUnit, `{"to":120,"unit":"psi","unit_code":"PS","ucum":"[psi]"}`},
		{"8 bar min", measure.NoUnit, `{"from":8,"unit":"bar","unit_code":"BAR","ucum":"bar"}`},
		{"93 °C", measure.NoUnit, `{"number":93,"unit":"°C","unit_code":"CEL","ucum":"Cel"}`},
		{"0 °", measure.NoUnit, `{"number":0,"unit":"°","unit_code":"DD","ucum":"deg"}`},
		{"6 kg/mm", measure.NoUnit, `{"number":6,"unit":"kgf/mm","ucum":"kgf/mm"}`},
		{"4", measure.One, `{"number":4,"unit_code":"C62","ucum":"1"}`},
	} {
		q, err := measure.ParseQuantityIn(tt.text, tt.unit, measure.Options{})
		require.NoError(t, err)
		got, err := json.Marshal(ValueOf(q))
		require.NoError(t, err)
		assert.JSONEq(t, tt.want, string(got), tt.text)
	}
	assert.Nil(t, PropertyOf(&model.Property{Name: "Colour", Text: "grey"}).Value)
}

// The header's unit stands with a number and never with a text that was not read or has a
// unit of its own.
func TestUnitBesideText(t *testing.T) {
	q, err := measure.ParseQuantityIn("24 in", measure.Millimetre, measure.Options{})
	require.NoError(t, err)
	for _, tt := range []struct {
		p    model.Property
		want string
	}{
		{model.Property{Unit: "mm", Text: "24 in approx"}, ""},
		{model.Property{Unit: "mm", Text: "24 in", Quantity: q}, ""},
		{model.Property{Unit: "mm", Text: "24", Quantity: q}, "mm"},
		{model.Property{Unit: "mm", Text: "1.2.3"}, ""},
		{model.Property{Unit: "rpm", Text: "1500"}, "rpm"},
		{model.Property{Unit: "of the cap", Text: "blue"}, ""},
	} {
		assert.Equal(t, tt.want, PropertyOf(&tt.p).Unit, tt.p.Text)
	}
}

// What calculates a property is told with it; the staff's note on it is not.
func TestCalculatedProperty(t *testing.T) {
	names := formula.NewNames()
	names.Add(formula.Name{Text: "Length", Dim: measure.Dimension{Length: 1}})
	f, err := formula.Parse("Length / 3", names, measure.Options{})
	require.NoError(t, err)
	third := big.NewRat(1, 3)
	got, err := json.Marshal(PropertyOf(&model.Property{Name: "Third", Unit: "mm", Text: "0.33333", Quantity: measure.New(third, third, measure.Millimetre),
		By: &model.Calculated{Formula: f, Source: "ours", Note: "secret"}}))
	require.NoError(t, err)
	assert.JSONEq(t, `{"name":"Third","unit":"mm","text":"0.33333","value":{"number":0.3333333333333333,"unit":"mm","unit_code":"MMT","ucum":"mm"},
		"calculated":{"formula":"Length / 3","source":"ours"}}`, string(got))
}
