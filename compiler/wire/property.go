package wire

import (
	"encoding/json"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

// Property is a property of a part.
type Property struct {
	Name  string `json:"name"`            // the column
	Unit  string `json:"unit,omitempty"`  // as the header states it; left out where Text is no number of it
	Text  string `json:"text"`            // as written
	Value *Value `json:"value,omitempty"` // nil for a text that is no quantity
	// Calculated says what the property follows from; left out where the part states it.
	Calculated *calculation `json:"calculated,omitempty"`
}

type calculation struct {
	Formula string `json:"formula"`
	Source  string `json:"source,omitempty"`
}

// Value is a measured value: a number, or the ends of a range, of which a bound has one.
type Value struct {
	Number   json.Number `json:"number,omitempty"`    // of a single value
	From     json.Number `json:"from,omitempty"`      // least, of a range or a bound
	To       json.Number `json:"to,omitempty"`        // greatest, of a range or a bound
	Unit     string      `json:"unit,omitempty"`      // as the trade writes it; "" for a plain number
	UnitCode string      `json:"unit_code,omitempty"` // UN/CEFACT Recommendation 20
	UCUM     string      `json:"ucum"`                // the unit in the Unified Code for Units of Measure, "" where that has none
}

// PropertyOf puts a property as JSON, with what it is calculated from.
func PropertyOf(q *model.Property) Property {
	out := Property{q.Name, q.Behind(), q.Text, ValueOf(q.Quantity), nil}
	if q.By != nil {
		out.Calculated = &calculation{q.By.Formula.Text, q.By.Source}
	}
	return out
}

// ValueOf gives nil for what is no measured value.
func ValueOf(q measure.Quantity) *Value {
	if !q.Known() {
		return nil
	}
	out := &Value{Unit: q.Unit.String(), UnitCode: q.Unit.Code(), UCUM: q.Unit.UCUM()}
	switch {
	case q.Bound() == measure.AtMost:
		out.To = Decimal(q.High)
	case q.Bound() == measure.AtLeast:
		out.From = Decimal(q.Low)
	case q.Single():
		out.Number = Decimal(q.Low)
	default:
		out.From, out.To = Decimal(q.Low), Decimal(q.High)
	}
	return out
}
