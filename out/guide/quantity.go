package guide

import (
	"encoding/json"
	"math/big"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

// properties lists what further columns of a part's row say to the world, measured values
// in both systems.
func (s *site) properties(p *model.Part) []property {
	var out []property
	for _, q := range p.Properties {
		if q.Text == "" || !q.Public || q.Refused {
			continue
		}
		said := property{Name: s.tr(q.Name), Value: s.propertyWords(q)}
		if q.By != nil {
			said.Formula, said.Source = q.By.Formula.Text, q.By.Source
		}
		out = append(out, said)
	}
	return out
}

// propertyWords says a property with its unit. What is no number stands as it was written.
func (s *site) propertyWords(q model.Property) string {
	switch {
	case q.Quantity.Known():
		return s.quantity(q.Quantity)
	case q.Behind() != "":
		return q.Text + "\u00a0" + q.Behind()
	}
	return s.tr(q.Text)
}

// quantity is a schema.org QuantitativeValue: one number, or the two that it lies
// between, or the one that it may not pass.
type quantity struct {
	Type string      `json:"@type"`
	Num  json.Number `json:"value,omitempty"`
	Min  json.Number `json:"minValue,omitempty"`
	Max  json.Number `json:"maxValue,omitempty"`
	Unit string      `json:"unitCode"`
}

// quantityOf gives a measured value whose unit has a common code (UN/CEFACT
// Recommendation 20, as schema.org's unitCode asks for) and whose numbers are decimals;
// false for any other, which is told as text.
func quantityOf(q measure.Quantity) (quantity, bool) {
	if !q.Known() || q.Unit.Code() == "" {
		return quantity{}, false
	}
	low, ok := decimal(q.Low)
	high, also := decimal(q.High)
	if !ok || !also {
		return quantity{}, false
	}
	out := quantity{Type: "QuantitativeValue", Unit: q.Unit.Code()}
	switch {
	case q.Bound() == measure.AtMost:
		out.Max = high
	case q.Bound() == measure.AtLeast:
		out.Min = low
	case q.Single():
		out.Num = low
	default:
		out.Min, out.Max = low, high
	}
	return out, true
}

// decimal gives a number that ends as a decimal.
func decimal(n *big.Rat) (json.Number, bool) {
	places, ends := n.FloatPrec()
	if !ends {
		return "", false
	}
	return json.Number(n.FloatString(places)), true
}
