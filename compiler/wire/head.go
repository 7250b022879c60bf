package wire

import (
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/schema"
)

// Head says which vehicles a guide is about and how to tell them.
type Head struct {
	Platform      string   `json:"platform"`                   // its name
	Maker         string   `json:"maker,omitempty"`            // who made the chassis
	Summary       string   `json:"summary,omitempty"`          // a sentence about it
	HowToTell     string   `json:"how_to_tell,omitempty"`      // how to see that a vehicle is one
	Years         [][2]int `json:"years"`                      // closed ranges of model years
	YearHowToTell string   `json:"year_how_to_tell,omitempty"` // how to see the model year
	Called        []string `json:"also_called,omitempty"`      // what people call it besides
	YearCalled    []string `json:"year_also_called,omitempty"` // what people call the model year besides
	Traits        []Trait  `json:"traits"`                     // those that differ among its vehicles or are named
}

// Trait holds the values that the platform's vehicles have.
type Trait struct {
	Trait     string       `json:"trait"`                 // its name
	Kind      string       `json:"kind"`                  // choice, ordered, size, serial or date
	Question  string       `json:"question,omitempty"`    // as it is put to a reader
	HowToTell string       `json:"how_to_tell,omitempty"` // where to look
	Effort    int          `json:"effort"`                // how much it takes to look, in units of the catalogue
	Values    []TraitValue `json:"values"`                // as declared
	Ranges    [][2]string  `json:"ranges,omitempty"`      // of serial numbers and dates, in place of values: closed
	Absent    bool         `json:"absent,omitempty"`      // it does not apply to some vehicles
	Called    []string     `json:"also_called,omitempty"` // what people call it besides
}

// TraitValue is a declared value of a trait, with how to see it.
type TraitValue struct {
	Value     string   `json:"value"`                 // its name
	HowToTell string   `json:"how_to_tell,omitempty"` // how to see it
	Called    []string `json:"also_called,omitempty"` // what people call it besides; in a guide, on this platform
}

// PositionHead says where something is fitted. Quantity is left out where it differs
// from vehicle to vehicle.
type PositionHead struct {
	Position string `json:"position"`           // its name
	Axle     string `json:"axle,omitempty"`     // front, pusher, drive or tag
	Side     string `json:"side,omitempty"`     // left, right, centre or both, facing forward
	Pair     string `json:"pair,omitempty"`     // the position opposite
	Quantity int    `json:"quantity,omitempty"` // how many it takes; 0: it differs
	Summary  string `json:"summary,omitempty"`  // a sentence about it
}

// HeadOf gives the head of the guide of a platform.
func HeadOf(c *model.Catalogue, g *decide.Guide) Head {
	p := g.Platform
	out := Head{p.Name, p.Maker, p.Summary, p.Tell, YearSpans(p.Years),
		Tell(c.YearTell, p), model.Names(p.Called, nil), model.Names(c.YearCalled, nil), make([]Trait, len(g.Traits))}
	for i, t := range g.Traits {
		out.Traits[i] = traitOf(t, p)
	}
	return out
}

func traitOf(t model.TraitSet, p *model.Platform) Trait {
	out := Trait{t.Trait.Name, t.Trait.Kind.String(), t.Trait.Question, Tell(t.Trait.Tell, p),
		t.Trait.EffortOn(p), []TraitValue{}, nil, t.Values.Has(t.Trait.Absent()), model.Names(t.Trait.Called, nil)}
	if t.Trait.Kind.OnLine() {
		out.Ranges = Ranges(t)
		return out
	}
	for i, v := range t.Trait.Values {
		if t.Values.Has(i) {
			out.Values = append(out.Values, TraitValue{v.Name, Tell(v.Tell, p), model.Names(v.Called, p)})
		}
	}
	return out
}

// PositionOf gives the head of a position. Words of Axle and Side that no list has are left
// out.
func PositionOf(p *model.Position) PositionHead {
	out := PositionHead{p.Name, oneOf(p.Axle, schema.Positions, "Axle"),
		oneOf(p.Side, schema.Positions, "Side"), PositionName(p.Pair), 0, p.Summary}
	for i, r := range p.Rows {
		if i > 0 && r.Quantity != out.Quantity {
			out.Quantity = 0
			break
		}
		out.Quantity = r.Quantity
	}
	return out
}

// Extent is the values that a trait on a line has: on a platform or, where that is left out, on all
// that have none of their own.
type Extent struct {
	Platform string      `json:"platform,omitempty"` // its name
	Ranges   [][2]string `json:"ranges"`             // closed
}

// ExtentOf puts an extent as JSON.
func ExtentOf(t *model.Trait, e model.Extent) Extent {
	out := Extent{Ranges: Ranges(model.TraitSet{Trait: t, Line: &model.Line{Ranges: e.Values}})}
	if e.Platform != nil {
		out.Platform = e.Platform.Name
	}
	return out
}
