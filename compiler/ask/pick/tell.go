package pick

import (
	"slices"
	"strings"

	"ferrule/compiler/model"
)

// HowToTell says how to see a trait on vehicles of the platform that is asked about, or the
// model year for nil: of the trait as a whole, then of each value. "" where nothing says so.
func (l *List) HowToTell(t *model.Trait) string {
	var out []string
	if whole := l.TellWhole(t); whole != "" {
		out = append(out, whole)
	}
	if t == nil {
		return strings.Join(out, " ")
	}
	for _, v := range t.Values {
		if text := l.TellValue(v); text != "" {
			out = append(out, v.Name+": "+text)
		}
	}
	return strings.Join(out, " ")
}

// TellWhole says how to see a trait, whatever its value, or the model year for nil.
func (l *List) TellWhole(t *model.Trait) string {
	if t == nil {
		return tell(l.yearTell, l.Query.Platform)
	}
	return tell(t.Tell, l.Query.Platform)
}

// TellValue says how to see that a vehicle has a value.
func (l *List) TellValue(v *model.Value) string { return tell(v.Tell, l.Query.Platform) }

// tell gives the texts for a platform, and where there are none those for all.
func tell(tells []model.Tell, p *model.Platform) string {
	var own, general []string
	for _, t := range tells {
		switch {
		case t.Text == "":
		case t.Platform == nil && !slices.Contains(general, t.Text):
			general = append(general, t.Text)
		case t.Platform == p && !slices.Contains(own, t.Text):
			own = append(own, t.Text)
		}
	}
	if len(own) > 0 {
		return strings.Join(own, " ")
	}
	return strings.Join(general, " ")
}

// Only leaves the positions where a part is offered, alone, with others or in a kit, and
// what decides there; false where there is none.
func (l *List) Only(part *model.Part) bool {
	l.Positions = slices.DeleteFunc(l.Positions, func(p Position) bool { return !p.offers(part) })
	l.depend()
	l.Order = order(l.Positions)
	return len(l.Positions) > 0
}

func (p *Position) offers(part *model.Part) bool {
	found := false
	for _, w := range p.Ways {
		fits := model.Fits{Outcome: w.Case.Outcome, Alternatives: w.Case.Alternatives}
		fits.Parts(func(n *model.Part) { found = found || n == part })
	}
	return found
}
