package data

import (
	"encoding/json"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

type property struct {
	Name  string `json:"name"`
	Unit  string `json:"unit,omitempty"` // as the header states it; left out where Text is no number of it
	Text  string `json:"text"`
	Value *value `json:"value,omitempty"`
	// Calculated says what the property follows from; left out where the part states it.
	Calculated *calculation `json:"calculated,omitempty"`
}

type calculation struct {
	Formula string `json:"formula"`
	Source  string `json:"source,omitempty"`
}

// value is a measured value: a number, or the ends of a range, of which a bound has one.
type value struct {
	Number   json.Number `json:"number,omitempty"`
	From     json.Number `json:"from,omitempty"`
	To       json.Number `json:"to,omitempty"`
	Unit     string      `json:"unit,omitempty"`
	UnitCode string      `json:"unit_code,omitempty"` // UN/CEFACT Recommendation 20
	UCUM     string      `json:"ucum"`
}

func propertyOf(q *model.Property) property {
	out := property{q.Name, q.Behind(), q.Text, valueOf(q.Quantity), nil}
	if q.By != nil {
		out.Calculated = &calculation{q.By.Formula.Text, q.By.Source}
	}
	return out
}

// valueOf gives nil for what is no measured value.
func valueOf(q measure.Quantity) *value {
	if !q.Known() {
		return nil
	}
	out := &value{Unit: q.Unit.String(), UnitCode: q.Unit.Code(), UCUM: q.Unit.UCUM()}
	switch {
	case q.Bound() == measure.AtMost:
		out.To = decimal(q.High)
	case q.Bound() == measure.AtLeast:
		out.From = decimal(q.Low)
	case q.Single():
		out.Number = decimal(q.Low)
	default:
		out.From, out.To = decimal(q.Low), decimal(q.High)
	}
	return out
}
