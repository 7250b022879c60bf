package wire

import (
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Case is a box of vehicles with what is known there. Settled is written where
// it is false: no part may be told then, and whoever needs one must ask.
type Case struct {
	Where        Box       `json:"where"`
	Outcome      string    `json:"outcome"`
	Settled      *bool     `json:"settled,omitempty"`
	Quantity     int       `json:"quantity,omitempty"`
	Alternatives [][]Item  `json:"alternatives,omitempty"`
	With         string    `json:"with,omitempty"`
	Text         string    `json:"text,omitempty"`
	Notes        []string  `json:"notes,omitempty"`
	Cautions     []Caution `json:"cautions,omitempty"`
}

// Rule says what must not be fitted, needs company or needs care. Where is left out
// where it holds for all of the platform.
type Rule struct {
	Part   string `json:"part,omitempty"`
	Family string `json:"family,omitempty"`
	With   string `json:"with,omitempty"`
	Where  []Box  `json:"where,omitempty"`
	Effect string `json:"effect"`
	Reason string `json:"reason"`
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
