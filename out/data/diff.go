package data

import (
	"encoding/json"
	"io"
	"math/big"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/release"
	"ferrule/compiler/release/compare"
	"ferrule/compiler/release/staff"
	"ferrule/compiler/wire"
	"ferrule/sheets/cell"
)

// Compared is a comparison with what was compared.
type Compared struct {
	Old, New release.State
	*compare.Diff
}

type diffFile struct {
	Old       diffState          `json:"old"`
	New       diffState          `json:"new"`
	Summary   map[string]diffSum `json:"summary"`
	Renames   []diffRename       `json:"renames"`
	Splits    []diffSplit        `json:"splits"`
	Vehicles  []diffFleet        `json:"vehicles"`
	Changes   []diffChange       `json:"changes"`
	Losses    []diffLoss         `json:"unprotected"`
	Advice    []diffAdvice       `json:"advice,omitempty"`
	Irregular []diffIrregular    `json:"irregular"`
}

type diffState struct {
	Source    string        `json:"source"`
	Kind      string        `json:"kind"`
	Title     string        `json:"title,omitempty"`
	Release   string        `json:"release,omitempty"`
	Workbooks int           `json:"workbooks,omitempty"`
	Sheets    int           `json:"sheets,omitempty"`
	Rows      int           `json:"rows,omitempty"`
	Findings  staff.Summary `json:"findings"`
}

// diffSum adds up the differences of a kind. A vehicle counts once for each position.
type diffSum struct {
	Entries        int         `json:"entries"`
	Accepted       int         `json:"accepted"` // of the entries
	Configurations *big.Int    `json:"configurations"`
	OnTheRoad      json.Number `json:"on_the_road"`
}

type diffRename struct {
	What  string `json:"what"`
	Trait string `json:"trait,omitempty"`
	Old   string `json:"old"`
	New   string `json:"new"`
	Why   string `json:"why"`
}

type diffSplit struct {
	Platform string `json:"platform"`
	Trait    string `json:"trait"`
	In       string `json:"in"` // old or new: the release that uses the trait
}

// diffRegion is a set of vehicles.
type diffRegion struct {
	Configurations *big.Int      `json:"configurations"`
	OnTheRoad      json.Number   `json:"on_the_road"`
	Where          []wire.Box    `json:"where"`
	Rest           *big.Int      `json:"rest,omitempty"`
	Example        *wire.Example `json:"example"`
}

type diffFleet struct {
	Kind     string `json:"kind"`
	Platform string `json:"platform"`
	Whole    bool   `json:"whole,omitempty"` // the other release has no such platform
	diffRegion
	Breaks []wire.Place `json:"breaks,omitempty"` // rows of the other release that say that they were not built
}

type diffChange struct {
	Kind     string `json:"kind"`
	Platform string `json:"platform"`
	Position string `json:"position"`
	diffRegion
	Old      diffAnswer      `json:"old"`
	New      diffAnswer      `json:"new"`
	Accepted *staff.Accepted `json:"accepted,omitempty"`
}

// diffAnswer is what a release says. Without an outcome the position is not there.
type diffAnswer struct {
	Outcome      string       `json:"outcome,omitempty"`
	Settled      *bool        `json:"settled,omitempty"`
	Alternatives [][]diffItem `json:"alternatives,omitempty"`
	With         string       `json:"with,omitempty"`
	Cells        []wire.Place `json:"cells,omitempty"`
	More         int          `json:"more,omitempty"` // cells that are left out
}

// diffItem is a part with how many of it and, of a kit, what it holds.
type diffItem struct {
	wire.Item
	Holds []diffItem `json:"holds,omitempty"`
}

// diffAdvice is a row of Complaints or Inspections that differs, in words; what a release does not have is left out.
type diffAdvice struct {
	Sheet    string       `json:"sheet"`
	What     string       `json:"what"`
	Old      string       `json:"old,omitempty"`
	New      string       `json:"new,omitempty"`
	OldCells []wire.Place `json:"old_cells,omitempty"`
	NewCells []wire.Place `json:"new_cells,omitempty"`
}

func diffAdviceOf(a compare.Advice) diffAdvice {
	here := func(p cell.Place) cell.Place { return p }
	return diffAdvice{a.Sheet, a.What, a.Was, a.Now, wire.Places(a.Old, here), wire.Places(a.New, here)}
}

type diffIrregular struct {
	Platform string `json:"platform"`
	Position string `json:"position,omitempty"`
}

// Diff writes a comparison.
func Diff(w io.Writer, c *Compared) error {
	return wire.Write(w, diffFile{
		Old: diffStateOf(c.Old), New: diffStateOf(c.New), Summary: diffSums(c.Diff),
		Renames: wire.Each(c.Renames, func(r compare.Rename) diffRename {
			return diffRename{r.What.String(), r.Trait, r.Old, r.New, r.Why}
		}),
		Splits: wire.Each(c.Splits, func(s compare.Split) diffSplit {
			if s.Dropped {
				return diffSplit{s.Platform, s.Trait, "old"}
			}
			return diffSplit{s.Platform, s.Trait, "new"}
		}),
		Vehicles: wire.Each(c.Fleets, func(f compare.Fleet) diffFleet {
			return diffFleet{f.Kind.String(), f.Platform, f.Whole, diffRegionOf(f.Region), wire.Places(f.Breaks, func(p cell.Place) cell.Place { return p })}
		}),
		Changes: wire.Each(c.Changes, diffChangeOf),
		Losses:  wire.Each(c.Losses, diffLossOf),
		Advice:  wire.Each(c.Advice, diffAdviceOf),
		Irregular: wire.Each(c.Irregular, func(i compare.Irregular) diffIrregular {
			return diffIrregular{i.Platform, i.Position}
		}),
	})
}

func diffStateOf(s release.State) diffState {
	return diffState{s.Source, s.Kind, s.Title, s.Label, s.Workbooks, s.Sheets, s.Rows, staff.SummaryOf(s.Findings)}
}

// diffSums has an entry for each kind. A map is written in the order of its keys.
func diffSums(d *compare.Diff) map[string]diffSum {
	out := map[string]diffSum{}
	for kind, s := range d.Sums() {
		out[compare.Kind(kind).String()] = diffSum{s.Entries, s.Accepted, s.Configurations, wire.Decimal(s.OnTheRoad)}
	}
	return out
}

func diffRegionOf(r *finding.Region) diffRegion {
	return diffRegion{r.Configurations, wire.Decimal(r.OnTheRoad), wire.Boxes(r.Where), r.Rest, wire.ExampleOf(r.Example)}
}

func diffChangeOf(c compare.Change) diffChange {
	return diffChange{c.Kind.String(), c.Platform, c.Position, diffRegionOf(c.Region),
		diffAnswerOf(c.Old), diffAnswerOf(c.New), staff.AcceptedOf(c.Accepted)}
}

func diffAnswerOf(a compare.Answer) diffAnswer {
	if !a.Exists {
		return diffAnswer{}
	}
	out := diffAnswer{Outcome: a.Outcome.String(), Settled: wire.No(a.Unsound()), With: wire.PositionName(a.With),
		Cells: wire.Places(a.Cells, func(p cell.Place) cell.Place { return p }), More: a.More}
	for _, alternative := range a.Alternatives {
		out.Alternatives = append(out.Alternatives, diffItems(alternative, nil, new(int)))
	}
	return out
}

// mostOpened bounds how many kits are opened of what is fitted together: kits that share kits would
// be longer than any memory.
const mostOpened = 1_000

// diffItems gives parts that are fitted together; within are the kits that hold them, and opened
// counts all that were. A kit that leads back to itself ends there.
func diffItems(items model.Alternative, within []*model.Part, opened *int) []diffItem {
	var out []diffItem
	for _, it := range items {
		d := diffItem{Item: wire.Item{Part: it.Part.Number, Quantity: it.Quantity}}
		if it.Part.Kit() && !slices.Contains(within, it.Part) && *opened < mostOpened {
			*opened++
			d.Holds = diffItems(compare.Contents(it.Part), append(slices.Clone(within), it.Part), opened)
		}
		out = append(out, d)
	}
	return out
}
