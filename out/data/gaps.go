package data

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/ask/gaps"
	"ferrule/compiler/model"
	"ferrule/compiler/release/staff"
	"ferrule/compiler/wire"
)

// amount is a number of configurations and their share on the road.
type amount struct {
	Configurations *big.Int    `json:"configurations"`
	OnTheRoad      json.Number `json:"on_the_road"`
}

func amountOf(a gaps.Amount) amount {
	return amount{wire.Whole(a.Configurations), wire.Share(a.OnTheRoad)}
}

type gapsFile struct {
	amount
	Accepted  amount        `json:"accepted"`
	Positions []gapPosition `json:"positions"`
}

type gapPosition struct {
	Position string `json:"position"`
	Coverage string `json:"coverage"`
	amount
	Platforms []gapPlatform `json:"platforms"`
}

// gapPlatform is the gap of a position on one platform. Exact is written where it is
// false: the gap is too irregular to be counted, and the amounts are left out.
type gapPlatform struct {
	Platform string `json:"platform"`
	Exact    *bool  `json:"exact,omitempty"`
	*amount
	Pieces  []gapPiece    `json:"pieces,omitempty"`
	Rest    *big.Int      `json:"rest,omitempty"`
	Example *wire.Example `json:"example,omitempty"`
}

type gapPiece struct {
	Where wire.Box `json:"where"`
	amount
}

// Gaps writes a ranking of gaps.
func Gaps(w io.Writer, r *gaps.Ranking) error {
	return wire.Write(w, gapsFile{amountOf(r.Amount), amountOf(r.Accepted), wire.Each(r.Positions, func(p gaps.Position) gapPosition {
		return gapPosition{p.Position.Name, p.Position.Coverage.String(), amountOf(p.Amount), wire.Each(p.Platforms, gapPlatformOf)}
	})})
}

func gapPlatformOf(p gaps.Platform) gapPlatform {
	out := gapPlatform{Platform: p.Platform.Name, Exact: wire.No(!p.Exact), Rest: p.Rest, Example: wire.ExampleOf(p.Example)}
	if p.Exact {
		a := amountOf(p.Amount)
		out.amount = &a
	}
	for _, piece := range p.Pieces {
		out.Pieces = append(out.Pieces, gapPiece{wire.BoxOf(piece.Where), amountOf(piece.Amount)})
	}
	return out
}

type effectFile struct {
	Rows     []triedRow      `json:"rows"`
	Changes  []effect        `json:"changes"`
	Findings []staff.Finding `json:"findings"`
}

type triedRow struct {
	Row      string    `json:"row"`
	Says     string    `json:"says"`
	Position string    `json:"position"`
	Where    wire.When `json:"where"`
	Unknown  []string  `json:"unknown,omitempty"`
}

// effect is what the rows would change at a position of a platform. Exact is written
// where it is false, and then nothing else is.
type effect struct {
	Platform      string             `json:"platform"`
	Position      string             `json:"position"`
	Exact         *bool              `json:"exact,omitempty"`
	Before        map[string]amount  `json:"before,omitempty"`
	After         map[string]amount  `json:"after,omitempty"`
	Matched       *amount            `json:"matched,omitempty"`
	Sets          map[string]someSet `json:"sets,omitempty"`
	DisagreesWith []clash            `json:"disagrees_with,omitempty"`
}

type someSet struct {
	amount
	Where []wire.Box `json:"where,omitempty"`
	Rest  *big.Int   `json:"rest,omitempty"`
}

type clash struct {
	Row  string      `json:"row"`
	Cell *wire.Place `json:"cell,omitempty"`
	Says string      `json:"says"`
	amount
}

// Effect writes what further rows would change.
func Effect(w io.Writer, e *gaps.Effect) error {
	return wire.Write(w, effectFile{wire.Each(e.Rows, triedRowOf), wire.Each(e.Changes, effectOf), wire.Each(e.Findings, staff.FindingOf)})
}

func triedRowOf(r *gaps.Row) triedRow {
	return triedRow{r.Text, r.Cell.Fits.String(), r.Cell.Position.Name, wire.WhenOf(&r.Where), r.Unknown}
}

func effectOf(c gaps.Change) effect {
	out := effect{Platform: c.Platform.Name, Position: c.Position.Name, Exact: wire.No(!c.Exact)}
	if !c.Exact {
		return out
	}
	matched := amountOf(c.Matched)
	out.Matched = &matched
	out.Before, out.After = outcomes(c.Before), outcomes(c.After)
	out.Sets = map[string]someSet{}
	for name, s := range map[string]gaps.Set{"covered": c.Covered, "conflicts": c.Conflicts, "still_in_conflict": c.StillConflict,
		"agrees": c.Agrees, "replaces": c.Replaces, "overruled": c.Overruled} {
		out.Sets[name] = someSet{amountOf(s.Amount), wire.Boxes(s.Where), s.Rest}
	}
	for _, x := range c.Clashes {
		out.DisagreesWith = append(out.DisagreesWith, clash{x.Row.Text, clashCell(x.Cell), x.Cell.Fits.String(), amountOf(x.Amount)})
	}
	return out
}

// clashCell gives nil for the cell of another row that is tried.
func clashCell(c *model.FitCell) *wire.Place {
	if c.At.Sheet == nil || c.At.Sheet.Name == "" {
		return nil
	}
	return wire.PlaceOf(c.At)
}

func outcomes(a [model.Outcomes]gaps.Amount) map[string]amount {
	out := map[string]amount{}
	for o := range model.Outcomes {
		out[o.String()] = amountOf(a[o])
	}
	return out
}
