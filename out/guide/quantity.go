package guide

import (
	"encoding/json"
	"strings"

	"ferrule/compiler/model"
)

// properties lists what further columns of a part's row hold.
func properties(p *model.Part) []property {
	var out []property
	for _, q := range p.Properties {
		if q.Text != "" {
			out = append(out, property{q.Name, propertyWords(q)})
		}
	}
	return out
}

// propertyWords says a property with its unit.
func propertyWords(q model.Property) string {
	if q.Unit == "" {
		return q.Text
	}
	return q.Text + "\u00a0" + q.Unit
}

// quantity is a schema.org QuantitativeValue.
type quantity struct {
	Type string      `json:"@type"`
	Num  json.Number `json:"value"`
	Unit string      `json:"unitCode"`
}

// quantityOf gives a property that is one number with a unit that has a common code;
// false for any other, which is told as text.
func quantityOf(q model.Property) (quantity, bool) {
	number, unit := strings.TrimSpace(q.Text), q.Unit
	if unit == "" {
		if i := strings.LastIndexByte(number, ' '); i > 0 {
			number, unit = strings.TrimSpace(number[:i]), number[i+1:]
		}
	}
	code := unitCode(unit)
	if code == "" || !isNumber(number) {
		return quantity{}, false
	}
	return quantity{"QuantitativeValue", json.Number(number), code}, true
}

// isNumber tells whether a text is a plain decimal that JSON can hold as it stands.
func isNumber(text string) bool {
	digits := strings.TrimPrefix(text, "-")
	whole, places, decimal := strings.Cut(digits, ".")
	return digitsOnly(whole) && (len(whole) == 1 || whole[0] != '0') && (!decimal || digitsOnly(places)) && len(digits) <= 15
}

func digitsOnly(text string) bool {
	return text != "" && strings.Trim(text, "0123456789") == ""
}

// unitCode gives the common code of a unit: UN/CEFACT Recommendation 20, as schema.org's
// unitCode asks for; "" for a unit that has none here.
func unitCode(unit string) string {
	switch unit {
	case "in":
		return "INH"
	case "mm":
		return "MMT"
	case "ft":
		return "FOT"
	case "lb":
		return "LBR"
	case "kg":
		return "KGM"
	case "lbf":
		return "C78"
	case "N":
		return "NEW"
	case "psi":
		return "PS"
	case "kPa":
		return "KPA"
	case "bar":
		return "BAR"
	case "N·m", "N.m":
		return "NU"
	case "lbf·ft", "lb·ft":
		return "M92"
	case "lbf·in", "lb·in":
		return "F21"
	case "N/mm":
		return "F47"
	}
	return ""
}
