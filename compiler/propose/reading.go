package propose

import (
	"fmt"
	"slices"

	"ferrule/compiler/propose/shape"
	"ferrule/schema"
)

// reading is what one table is taken for.
type reading struct {
	b       *builder
	p       *page
	t       *shape.Table
	all     []*column
	across  *across
	vehicle source
	place   source
	marks   []string // those that stand for a fit
	rules   []Rule
	down    map[spot]string // what blank cells say that are as above
}

// spot is a cell of a row of values.
type spot struct{ row, col int32 }

// at gives what a column says of a row, also where it is as above.
func (r *reading) at(row *shape.Row, c *column) string {
	if text := row.At(c.Col); text != "" {
		return text
	}
	return r.down[spot{row.Number, c.Col}]
}

// fillDown finds the columns in which a blank is as above.
func (r *reading) fillDown() {
	r.down = map[spot]string{}
	for _, c := range r.all {
		if !c.leaves() || !r.repeats(c) {
			continue
		}
		last := ""
		for row := range r.t.Each {
			if text := row.At(c.Col); text != "" {
				last = text
			} else {
				r.down[spot{row.Number, c.Col}] = last
			}
		}
	}
}

// leaves tells what may leave out what stands above.
func (c *column) leaves() bool {
	return slices.Contains([]Role{Platform, Place, Years, Trait, Name, PartNo}, c.role)
}

// read takes the columns of a table for something.
func (b *builder) read(p *page, t *shape.Table) *reading {
	r := &reading{b: b, p: p, t: t, all: b.roles(t)}
	r.across = b.acrossOf(r.all, t)
	r.signedPlaces()
	r.fillDown()
	r.vehicle, _ = r.vehicleOf()
	r.traits()
	return r
}

// signedPlaces reads columns of places as a grid where signs stand behind the parts in them, since
// signs are read in grids alone.
func (r *reading) signedPlaces() {
	var places []*column
	signs := false
	for _, c := range r.all {
		if c.role != PlaceOf {
			continue
		}
		places = append(places, c)
		for _, v := range c.Values {
			_, sign := shape.Sign(v.Text)
			signs = signs || sign != ""
		}
	}
	if !signs || r.across != nil || len(places[0].Heads) > 1 || places[len(places)-1].Col-places[0].Col != int32(len(places)-1) {
		return
	}
	for _, c := range places {
		c.is(Grid, c.name, c.sure, c.why)
	}
	r.across = &across{columns: places, as: titles[Place], sort: Place, levels: []Role{Place}, sure: Likely, why: "the headings name places, and signs stand behind the parts"}
}

// traits takes columns with few different texts for traits, in tables about vehicles.
func (r *reading) traits() {
	if !r.aboutVehicles() {
		return
	}
	for _, c := range r.all {
		few := len(c.Values) <= 12 || len(c.Values)*3 <= r.t.Rows()
		if c.role != Unclear || c.Filled == 0 || !few || c.Head() == "" || openYears(c.Head()) || c.Share(shape.Words, shape.Size, shape.Number) < 0.7 {
			continue
		}
		if name := traitName(c.Head()); name != "" && (the(r.all, PartNo) == nil || r.across == nil) {
			c.is(Trait, name, Unsure, "few different texts stand in it, so it may tell vehicles apart")
		}
	}
}

// aboutVehicles tells whether the table says which vehicles it is about.
func (r *reading) aboutVehicles() bool {
	return r.vehicle.where != "" || r.across != nil && (r.across.sort == Platform || r.across.sort == Years)
}

// aboutParts tells whether the table says which parts are fitted.
func (r *reading) aboutParts() bool {
	return has(r.all, PartNo) || has(r.all, PlaceOf) ||
		r.across != nil && (r.across.sort == PartNo || r.partsInGrid())
}

// partsInGrid tells grids whose cells are parts.
func (r *reading) partsInGrid() bool {
	codes, filled := 0.0, 0
	for _, c := range r.across.columns {
		codes += c.Share(shape.Code, shape.Codes) * float64(c.Filled)
		filled += c.Filled
	}
	return filled > 0 && codes*2 > float64(filled)
}

// propose writes the rules of the table and says in a few words what it is taken for.
func (r *reading) propose() string {
	what := ""
	switch {
	case r.aboutParts() && r.aboutVehicles():
		r.fitment()
		what = "what fits which vehicles"
	case has(r.all, PartNo) && has(r.all, Other) && !has(r.all, Name):
		r.pairs(schema.References)
		what = "numbers of parts in pairs"
	case has(r.all, Kit) && has(r.all, PartNo):
		r.pairs(schema.Kits)
		what = "what kits hold"
	case has(r.all, PartNo) && r.across == nil:
		r.aloneParts()
		what = "a list of parts"
	case has(r.all, Platform) && (has(r.all, Years) || has(r.all, Trait) || r.vehicle.as == "Platform, Years") && r.across == nil:
		r.vehicles()
		what = "which vehicles there are"
	default:
		r.unread()
		return fmt.Sprintf("the table at %s is not understood", r.corner())
	}
	r.rest()
	r.b.out.Rules = append(r.b.out.Rules, r.rules...)
	return what
}
