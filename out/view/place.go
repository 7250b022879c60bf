package view

import (
	"math/big"

	"ferrule/compiler/ask/yearmap"
	"ferrule/compiler/judge/decide"
)

// Place is what is said at one position of a platform.
type Place struct {
	ID                 string // of its heading on a page with several; "" for none
	Platform, Position string
	Map                *yearmap.Map // nil where it is too irregular
	Trait              string       // down the map; "" where there is one row
	Legend             []yearmap.State
	Cases              []Case
}

// Case is a box of vehicles of which one thing is said.
type Case struct {
	Where          string
	Configurations *big.Int
	State          yearmap.State
	Says           string   // as a cell would; "" where no cell decides
	Cells          []string // that decide
}

// PlaceOf gives what a guide with its cases says at a position.
func PlaceOf(g *decide.Guide, a *decide.Answer) *Place {
	p := &Place{Platform: g.Platform.Name, Position: a.Position.Name, Map: yearmap.Of(g, a)}
	if p.Map != nil {
		var seen yearmap.States
		for _, r := range p.Map.Rows {
			for _, s := range r.Squares {
				seen |= s
			}
		}
		p.Legend = seen.List()
		if p.Map.Trait != nil {
			p.Trait = p.Map.Trait.Name
		}
	}
	for i := range a.Cases {
		c := &a.Cases[i]
		out := Case{Where: c.Where.String(), Configurations: c.Configurations, State: yearmap.StateOf(c)}
		for _, fc := range c.Cells {
			out.Cells = append(out.Cells, fc.At.String())
		}
		if len(c.Cells) > 0 {
			out.Says = c.Cells[0].Fits.String()
		}
		p.Cases = append(p.Cases, out)
	}
	return p
}
