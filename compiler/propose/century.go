package propose

import "ferrule/compiler/propose/shape"

// century writes which century years of two digits are of.
func (r *reading) century() {
	short := func(texts []string) bool {
		for _, text := range texts {
			if _, years, ok := shape.TrailingYears(text); ok && shape.ShortYears(years) || shape.IsYears(text) && shape.ShortYears(text) {
				return true
			}
		}
		return false
	}
	texts := append([]string{}, r.vehicle.texts...)
	if c := the(r.all, Years); c != nil {
		texts = append(texts, r.columnSource(c, "Years").texts...)
	}
	if r.across != nil {
		for _, c := range r.across.columns {
			texts = append(texts, c.Heads...)
		}
	}
	if short(texts) {
		r.rule("say", "Years", "century = 1950", Likely, "years are written with two digits: 50 to 99 are read as 1950 to 1999")
	}
}
