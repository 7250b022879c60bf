package data

import (
	"io"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/schema"
)

// guideFormat says by what rules a public guide is written: since 2 its boxes are tight,
// and it holds the vehicles that exist.
const guideFormat = 2

// guideFile is the public guide of one platform.
type guideFile struct {
	Format  int    `json:"format"`
	Release string `json:"release,omitempty"`
	guideHead
	Vehicles      []box      `json:"vehicles"` // that exist: all of a box does
	Positions     []position `json:"positions"`
	Compatibility []rule     `json:"compatibility"`
}

// guideHead says which vehicles a guide is about and how to tell them.
type guideHead struct {
	Platform      string       `json:"platform"`
	Maker         string       `json:"maker,omitempty"`
	Summary       string       `json:"summary,omitempty"`
	HowToTell     string       `json:"how_to_tell,omitempty"`
	Years         [][2]int     `json:"years"`
	YearHowToTell string       `json:"year_how_to_tell,omitempty"`
	Traits        []guideTrait `json:"traits"`
}

// guideTrait holds the values that the platform's vehicles have.
type guideTrait struct {
	Trait     string       `json:"trait"`
	Kind      string       `json:"kind"`
	Question  string       `json:"question,omitempty"`
	HowToTell string       `json:"how_to_tell,omitempty"`
	Effort    int          `json:"effort"`
	Values    []guideValue `json:"values"`
	Absent    bool         `json:"absent,omitempty"` // it does not apply to some vehicles
}

type guideValue struct {
	Value     string `json:"value"`
	HowToTell string `json:"how_to_tell,omitempty"`
}

// positionHead says where something is fitted. Quantity is left out where it differs
// from vehicle to vehicle.
type positionHead struct {
	Position string `json:"position"`
	Axle     string `json:"axle,omitempty"`
	Side     string `json:"side,omitempty"`
	Pair     string `json:"pair,omitempty"`
	Quantity int    `json:"quantity,omitempty"`
	Summary  string `json:"summary,omitempty"`
}

type position struct {
	positionHead
	// Settled is written where it is false: the vehicles are too irregular to be
	// listed, and there are no cases.
	Settled *bool       `json:"settled,omitempty"`
	Cases   []guideCase `json:"cases"`
}

// guideCase is a box of vehicles with what is known there. Settled is written where
// it is false: no part may be told then, and whoever needs one must ask.
type guideCase struct {
	Where        box       `json:"where"`
	Outcome      string    `json:"outcome"`
	Settled      *bool     `json:"settled,omitempty"`
	Quantity     int       `json:"quantity,omitempty"`
	Alternatives [][]item  `json:"alternatives,omitempty"`
	With         string    `json:"with,omitempty"`
	Text         string    `json:"text,omitempty"`
	Notes        []string  `json:"notes,omitempty"`
	Cautions     []caution `json:"cautions,omitempty"`
}

// rule says what must not be fitted, needs company or needs care. Where is left out
// where it holds for all of the platform.
type rule struct {
	Part   string `json:"part,omitempty"`
	Family string `json:"family,omitempty"`
	With   string `json:"with,omitempty"`
	Where  []box  `json:"where,omitempty"`
	Effect string `json:"effect"`
	Reason string `json:"reason"`
}

// PublicGuide writes guides/<platform>.json for the world.
func PublicGuide(w io.Writer, c *model.Catalogue, g *decide.Guide) error {
	file := guideFile{guideFormat, c.Settings.Release, headOf(c, g), boxes(g.Vehicles),
		make([]position, len(g.Answers)), make([]rule, len(g.Rules))}
	for i, a := range g.Answers {
		file.Positions[i] = publicPosition(a)
	}
	for i, r := range g.Rules {
		file.Compatibility[i] = ruleOf(r)
	}
	return write(w, file)
}

func headOf(c *model.Catalogue, g *decide.Guide) guideHead {
	p := g.Platform
	out := guideHead{p.Name, p.Maker, p.Summary, p.Tell, yearSpans(p.Years),
		tell(c.YearTell, p), make([]guideTrait, len(g.Traits))}
	for i, t := range g.Traits {
		out.Traits[i] = traitOf(t, p)
	}
	return out
}

func traitOf(t decide.TraitUse, p *model.Platform) guideTrait {
	out := guideTrait{t.Trait.Name, t.Trait.Kind.String(), t.Trait.Question, tell(t.Trait.Tell, p),
		t.Trait.EffortOn(p), []guideValue{}, t.Values.Has(t.Trait.Absent())}
	for i, v := range t.Trait.Values {
		if t.Values.Has(i) {
			out.Values = append(out.Values, guideValue{v.Name, tell(v.Tell, p)})
		}
	}
	return out
}

func publicPosition(a *decide.Answer) position {
	out := position{positionOf(a.Position), no(!a.Exact), make([]guideCase, len(a.Cases))}
	for i := range a.Cases {
		out.Cases[i] = publicCase(&a.Cases[i])
	}
	return out
}

func positionOf(p *model.Position) positionHead {
	out := positionHead{p.Name, oneOf(p.Axle, schema.Positions, "Axle"),
		oneOf(p.Side, schema.Positions, "Side"), positionName(p.Pair), 0, p.Summary}
	for i, r := range p.Rows {
		if i > 0 && r.Quantity != out.Quantity {
			out.Quantity = 0
			break
		}
		out.Quantity = r.Quantity
	}
	return out
}

// publicCase tells parts, reasons and notes of settled cases only: what stands in
// cells that disagree, or that offer a part that a check has found wrong, must reach
// nobody as advice. Of what is planned the world learns only that it is.
func publicCase(c *decide.Case) guideCase {
	if held := c.Withheld(); held || c.Outcome == model.Planned {
		return guideCase{Where: boxOf(c.Where), Outcome: c.Outcome.String(), Settled: no(held), Quantity: c.Quantity}
	}
	return wholeCase(c)
}

// wholeCase tells all that guides can hold: to the cautions of the row come those of
// the parts, with what is in kits.
func wholeCase(c *decide.Case) guideCase {
	notes, cautions := split(c.Notes)
	for _, a := range c.Alternatives {
		for _, it := range a {
			it.Part.Within(func(p *model.Part) { cautions = appendNew(cautions, cautionsOf(p.Cautions)...) })
		}
	}
	return guideCase{boxOf(c.Where), c.Outcome.String(), no(c.Unsettled), c.Quantity,
		alternatives(c.Alternatives), positionName(c.With), joined(c.Texts), notes, cautions}
}

func ruleOf(r decide.RuleUse) rule {
	return rule{partNumber(r.Rule.Part), r.Rule.Family, partNumber(r.Rule.With),
		boxes(r.Where), r.Rule.Effect.String(), r.Rule.Reason}
}
