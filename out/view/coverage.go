package view

import (
	"math/big"

	"ferrule/compiler/ask/yearmap"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Coverage is what is said of each platform at each position.
type Coverage struct {
	Positions []string
	Platforms []PlatformRow
}

// PlatformRow is one platform.
type PlatformRow struct {
	Platform string
	Squares  []Square // one for each position
}

// Square is a position of a platform.
type Square struct {
	Position string
	Parts    []Part // nothing: the platform has no such place
	Unknown  bool   // too irregular to be counted
	Link     string // to what is said there, year by year; "" for none
}

// Part is the vehicles of one state.
type Part struct {
	State          yearmap.State
	Configurations *big.Int
	Percent        int // of the configurations in which the place exists, rounded; at least 1
}

// CoverageOf gives what guides count.
func CoverageOf(cat *model.Catalogue, guides []*decide.Guide) *Coverage {
	c := &Coverage{}
	for _, p := range cat.Positions {
		c.Positions = append(c.Positions, p.Name)
	}
	for _, g := range guides {
		row := PlatformRow{Platform: g.Platform.Name}
		for _, a := range g.Answers {
			row.Squares = append(row.Squares, squareOf(a))
		}
		c.Platforms = append(c.Platforms, row)
	}
	return c
}

// worst is the order in which states are shown: what must be looked at first.
var worst = [...]struct {
	outcome model.Outcome
	state   yearmap.State
}{{model.Conflict, yearmap.Conflict}, {model.Gap, yearmap.Gap}, {model.Ask, yearmap.Ask}, {model.Planned, yearmap.Planned},
	{model.None, yearmap.None}, {model.Fitted, yearmap.Fitted}}

func squareOf(a *decide.Answer) Square {
	s := Square{Position: a.Position.Name, Unknown: !a.Exact}
	if s.Unknown {
		return s
	}
	for _, w := range worst {
		if n := a.Counts[w.outcome]; n.Sign() > 0 {
			s.Parts = append(s.Parts, Part{w.state, n, percent(n, a.Configurations)})
		}
	}
	return s
}

// percent rounds to whole numbers so that neither 0 nor 100 is said of a part.
func percent(n, of *big.Int) int {
	if n.Cmp(of) == 0 {
		return 100
	}
	hundred := new(big.Int).Mul(n, big.NewInt(100))
	rounded := int(new(big.Int).Div(new(big.Int).Add(hundred, new(big.Int).Rsh(of, 1)), of).Int64())
	return min(max(1, rounded), 99)
}
