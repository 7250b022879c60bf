package data

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// staffGuideFile is the guide of one platform with everything.
type staffGuideFile struct {
	guideHead
	Configurations *big.Int        `json:"configurations"`
	OnTheRoad      json.Number     `json:"on_the_road"`
	Cell           *place          `json:"cell,omitempty"`
	Vehicles       []vehiclesBox   `json:"vehicles"`
	Positions      []staffPosition `json:"positions"`
	Compatibility  []staffRule     `json:"compatibility"`
}

// vehiclesBox is what a Vehicles row says of one platform. Its traits are all named;
// configurations count the box alone, and rows may overlap. OnTheRoad is the part of
// the row's number that falls to this platform.
type vehiclesBox struct {
	box
	Configurations *big.Int    `json:"configurations"`
	OnTheRoad      json.Number `json:"on_the_road,omitempty"`
	Note           string      `json:"note,omitempty"`
	Cell           *place      `json:"cell,omitempty"`
}

type staffPosition struct {
	positionHead
	Coverage       string      `json:"coverage"`
	Exact          *bool       `json:"exact,omitempty"`
	Configurations *big.Int    `json:"configurations,omitempty"`
	Cases          []staffCase `json:"cases"`
	Against        []faulted   `json:"against,omitempty"`
	Cell           *place      `json:"cell,omitempty"`
}

type staffCase struct {
	guideCase
	Configurations *big.Int `json:"configurations"`
	Cells          []place  `json:"cells,omitempty"`
}

// faulted is the findings of a code about a part that keep a fit from being settled,
// with the vehicles; Position is left out for those about the platform as a whole.
type faulted struct {
	Code     string `json:"code"`
	Position string `json:"position,omitempty"`
	Part     string `json:"part,omitempty"`
	Where    []box  `json:"where"`
}

type staffRule struct {
	rule
	Cell *place `json:"cell,omitempty"`
}

// StaffGuide writes guides/<platform>.json for the staff.
func StaffGuide(w io.Writer, c *model.Catalogue, g *decide.Guide) error {
	file := staffGuideFile{
		guideHead: headOf(c, g), Configurations: whole(g.Configurations), OnTheRoad: share(g.OnTheRoad),
		Cell:      placeOf(g.Platform.At),
		Vehicles:  []vehiclesBox{},
		Positions: each(g.Answers, staffPositionOf),
		Compatibility: each(g.Rules, func(r decide.RuleUse) staffRule {
			return staffRule{ruleOf(r), placeOf(r.Rule.At)}
		}),
	}
	for _, v := range c.Vehicles {
		// A box without years would be about all of them.
		if !v.When.Dead && concerns(&v.When, g.Platform) && len(yearsIn(&v.When, g.Platform)) > 0 {
			file.Vehicles = append(file.Vehicles, vehiclesBoxOf(c, v, g.Platform))
		}
	}
	return write(w, file)
}

func staffPositionOf(a *decide.Answer) staffPosition {
	out := staffPosition{
		positionHead: positionOf(a.Position), Coverage: a.Position.Coverage.String(),
		Exact: no(!a.Exact), Cases: make([]staffCase, len(a.Cases)), Cell: placeOf(a.Position.At),
	}
	for _, s := range a.Against {
		out.Against = append(out.Against, faulted{string(s.Code), s.Position, s.Part, boxes(s.Where)})
	}
	if a.Exact {
		out.Configurations = whole(a.Configurations)
	}
	for i := range a.Cases {
		c := &a.Cases[i]
		out.Cases[i] = staffCase{wholeCase(c), whole(c.Configurations),
			places(c.Cells, func(f *model.FitCell) cell.Place { return f.At })}
	}
	return out
}

func places[T any](in []T, at func(T) cell.Place) []place {
	var out []place
	for _, v := range in {
		if p := placeOf(at(v)); p != nil {
			out = append(out, *p)
		}
	}
	return out
}

func concerns(w *model.When, p *model.Platform) bool {
	if w.Platforms == nil {
		return true
	}
	for _, q := range w.Platforms {
		if q == p {
			return true
		}
	}
	return false
}

func vehiclesBoxOf(c *model.Catalogue, v *model.Vehicles, p *model.Platform) vehiclesBox {
	out := vehiclesBox{box: box{yearSpans(yearsIn(&v.When, p)), traitSets(v.When.Traits)},
		Configurations: sizeIn(&v.When, p), Note: v.Note, Cell: placeOf(v.At)}
	if v.Road.Stated() {
		out.OnTheRoad = decimal(roadIn(c, v, p))
	}
	return out
}

// yearsIn gives the years of the platform that meet the condition, ascending.
func yearsIn(w *model.When, p *model.Platform) []int {
	var out []int
	for _, y := range p.Years {
		if w.Years.Has(y) {
			out = append(out, y)
		}
	}
	return out
}

// sizeIn gives the number of configurations of the platform in a Vehicles row: the
// product of its years and its values.
func sizeIn(w *model.When, p *model.Platform) *big.Int {
	n := big.NewInt(int64(len(yearsIn(w, p))))
	for _, t := range w.Traits {
		names, absent := t.Names()
		size := len(names)
		if absent {
			size++
		}
		n.Mul(n, big.NewInt(int64(size)))
	}
	return n
}

// roadIn gives the part of a row's On the road that falls to one platform: it is
// spread evenly over all configurations of all platforms in the row.
func roadIn(c *model.Catalogue, v *model.Vehicles, p *model.Platform) *big.Rat {
	all := new(big.Int)
	for _, q := range c.Platforms {
		if concerns(&v.When, q) {
			all.Add(all, sizeIn(&v.When, q))
		}
	}
	if all.Sign() == 0 {
		return new(big.Rat)
	}
	share := new(big.Rat).SetFrac(sizeIn(&v.When, p), all)
	return share.Mul(share, v.Road.Rat)
}
