package wire

import (
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Case is a box of vehicles with what is known there. Settled is written where
// it is false: no part may be told then, and whoever needs one must ask.
type Case struct {
	Where        Box       `json:"where"`                  // the vehicles
	Outcome      string    `json:"outcome"`                // fitted, none, planned, ask, conflict or gap
	Settled      *bool     `json:"settled,omitempty"`      // false: no part may be told
	Quantity     int       `json:"quantity,omitempty"`     // that the position takes
	Alternatives [][]Item  `json:"alternatives,omitempty"` // in order of preference; what one lists is fitted together
	With         string    `json:"with,omitempty"`         // the position whose item serves this one
	Text         string    `json:"text,omitempty"`         // the reason, the question, or what is planned
	Notes        []string  `json:"notes,omitempty"`        // of the rows that decide
	Cautions     []Caution `json:"cautions,omitempty"`     // of these rows, and of the parts
}

// Rule says what must not be fitted, needs company or needs care. Where is left out
// where it holds for all of the platform.
type Rule struct {
	Part   string `json:"part,omitempty"`   // the part that it is about
	Family string `json:"family,omitempty"` // or the family
	With   string `json:"with,omitempty"`   // the other part, of forbid and require
	Where  []Box  `json:"where,omitempty"`  // none: all of the platform
	Effect string `json:"effect"`           // forbid, require or caution
	Reason string `json:"reason"`           // as the row says it
}

// CaseOf tells all that guides can hold: to the cautions of the row come those of
// the parts, with what is in kits.
func CaseOf(c *decide.Case) Case {
	notes, cautions := split(c.Notes)
	for _, a := range c.Alternatives {
		for _, it := range a {
			it.Part.Within(func(p *model.Part) { cautions = appendNew(cautions, CautionsOf(p.Cautions)...) })
		}
	}
	return Case{BoxOf(c.Where), c.Outcome.String(), No(c.Unsettled), c.Quantity,
		Alternatives(c.Alternatives), PositionName(c.With), joined(c.Texts), notes, cautions}
}

// RuleOf puts a rule, as it holds on one platform, as JSON.
func RuleOf(r decide.RuleUse) Rule {
	return Rule{PartNumber(r.Rule.Part), r.Rule.Family, PartNumber(r.Rule.With),
		Boxes(r.Where), r.Rule.Effect.String(), r.Rule.Reason}
}
