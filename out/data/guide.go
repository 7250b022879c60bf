package data

import (
	"io"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/wire"
)

// guideFormat says by what rules a public guide is written: since 2 its boxes are tight,
// and it holds the vehicles that exist.
const guideFormat = 2

// guideFile is the public guide of one platform.
type guideFile struct {
	Format  int    `json:"format"`
	Release string `json:"release,omitempty"`
	wire.Head
	Vehicles      []wire.Box        `json:"vehicles"` // that exist: all of a box does
	Positions     []position        `json:"positions"`
	Compatibility []wire.Rule       `json:"compatibility"`
	Complaints    []wire.Complaint  `json:"complaints,omitempty"`
	Inspections   []wire.Inspection `json:"inspections,omitempty"` // the gravest first
}

type position struct {
	wire.PositionHead
	// Settled is written where it is false: the vehicles are too irregular to be
	// listed, and there are no cases.
	Settled *bool       `json:"settled,omitempty"`
	Cases   []wire.Case `json:"cases"`
}

// PublicGuide writes guides/<platform>.json for the world.
func PublicGuide(w io.Writer, c *model.Catalogue, g *decide.Guide) error {
	file := guideFile{guideFormat, c.Settings.Release, wire.HeadOf(c, g), wire.Boxes(g.Vehicles),
		make([]position, len(g.Answers)), make([]wire.Rule, len(g.Rules)), wire.ComplaintsOf(g.Complaints), wire.Each(g.Inspections, wire.InspectionOf)}
	for i, a := range g.Answers {
		file.Positions[i] = publicPosition(a)
	}
	for i, r := range g.Rules {
		file.Compatibility[i] = wire.RuleOf(r)
	}
	return wire.Write(w, file)
}

func publicPosition(a *decide.Answer) position {
	out := position{wire.PositionOf(a.Position), wire.No(!a.Exact), make([]wire.Case, len(a.Cases))}
	for i := range a.Cases {
		out.Cases[i] = publicCase(&a.Cases[i])
	}
	return out
}

// publicCase tells parts, reasons and notes of settled cases only: what stands in
// cells that disagree, or that offer a part that a check has found wrong, must reach
// nobody as advice. Of what is planned the world learns only that it is.
func publicCase(c *decide.Case) wire.Case {
	if held := c.Withheld(); held || c.Outcome == model.Planned {
		return wire.Case{Where: wire.BoxOf(c.Where), Outcome: c.Outcome.String(), Settled: wire.No(held), Quantity: c.Quantity}
	}
	return wire.CaseOf(c)
}
