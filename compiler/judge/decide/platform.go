// Package decide works out what the fitment rows say on every configuration: which
// cells decide, where they agree, and where nothing does.
//
// A configuration of a platform is a year and, for every trait, one declared value or
// 'does not apply'. A Platform holds those that exist as a region of a space; a Place
// holds what is said of one position there; a Guide is the result in the words of the
// catalogue, which stays valid when the space is gone.
package decide

import (
	"math/big"
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Index finds the rows that are about a platform without going through all of them.
type Index struct {
	cat       *model.Catalogue
	onLine    []*model.Trait // traits whose values stand on a line
	vehicles  [][]*model.Vehicles
	breaks    [][]*model.Break
	fitments  [][]*model.Fitment
	rules     [][]*model.Rule
	positions [][]*model.PositionRow
	facts     [][]*model.FactRow
	complains [][]*model.Complaint
	inspects  [][]*model.Inspection
	accepted  [][]*model.Acceptance // gathered only where a trait stands on a line
	within    *model.When           // nil: all vehicles
	also      func(*model.Platform) Cuts
	left      *leftovers
}

// NewIndex goes through the catalogue once.
func NewIndex(cat *model.Catalogue) *Index {
	n := len(cat.Platforms)
	x := &Index{cat: cat, onLine: cat.OnLine(), left: &leftovers{},
		vehicles: make([][]*model.Vehicles, n), breaks: make([][]*model.Break, n), accepted: make([][]*model.Acceptance, n), fitments: make([][]*model.Fitment, n),
		rules: make([][]*model.Rule, n), positions: make([][]*model.PositionRow, n), facts: make([][]*model.FactRow, n),
		complains: make([][]*model.Complaint, n), inspects: make([][]*model.Inspection, n)}
	for _, v := range cat.Vehicles {
		spread(x.vehicles, cat, &v.When, v)
	}
	for _, b := range cat.Breaks {
		spread(x.breaks, cat, &b.When, b)
	}
	if len(x.onLine) > 0 {
		for _, a := range cat.Acceptances {
			spread(x.accepted, cat, &a.When, a)
		}
	}
	for _, f := range cat.Fitments {
		spread(x.fitments, cat, &f.When, f)
	}
	for _, r := range cat.Rules {
		spread(x.rules, cat, &r.When, r)
	}
	for _, r := range cat.FactRows {
		spread(x.facts, cat, &r.When, r)
	}
	for _, c := range cat.Complaints {
		spread(x.complains, cat, &c.When, c)
	}
	for _, i := range cat.Inspections {
		spread(x.inspects, cat, &i.When, i)
	}
	for _, p := range cat.Positions {
		for _, r := range p.Rows {
			spread(x.positions, cat, &r.When, r)
		}
	}
	return x
}

// Within gives the index of the catalogue in which only the vehicles that meet a
// condition exist. What the rows say of them stays what it was, and so does how many of
// them are on the road.
func (x *Index) Within(w *model.When) *Index {
	out := *x
	out.within = w
	return &out
}

// HasVehicles tells whether a Vehicles row is about the platform.
func (x *Index) HasVehicles(p *model.Platform) bool { return len(x.vehicles[p.Index]) > 0 }

func spread[T any](to [][]T, cat *model.Catalogue, w *model.When, row T) {
	if w.SetAside {
		return
	}
	for _, p := range w.On(cat) {
		to[p.Index] = append(to[p.Index], row)
	}
}

// Platform is one platform as a space of configurations. Trait 0 of the space is the
// year, as an index into the platform's years; trait i+1 is trait i of the catalogue.
// In a space that is shared a Frame says where they stand instead, and what gives
// regions in the words of the catalogue (Words, Example, Uses, Has) must not be asked.
type Platform struct {
	*space.Space
	Model *model.Platform
	// Cat is the catalogue as it is on the platform: traits on a line have the stretches that
	// its rows tell apart as their values.
	Cat    *model.Catalogue
	Stated space.Region // the configurations that Vehicles rows hold
	All    space.Region // those of them that exist: what Breaks rows leave
	Rules  []*model.Rule
	Facts  []Fact // by the fact's index
	// Complaints and Inspections are the rows about the platform, as they stand.
	Complaints  []*model.Complaint
	Inspections []*model.Inspection

	frame     *Frame // nil: the space is the platform's own
	positions []*model.PositionRow
	factRows  []factRow
	cells     [][]*Cell   // per position
	vehicles  []space.Box // of what exists, once the space is entered
	breaks    []Break
	stated    []statedRow   // the Vehicles rows
	measure   space.Measure // how many numbers or days stretches have; nil where no trait stands on a line
	roads     []Road
	rows      []*rowBox
	keys      map[saying]string
	occur     []space.Set // see has
	within    bool        // only the vehicles of a condition exist
}

// saying is a fitment cell's words where a position takes a quantity.
type saying struct {
	fits     *model.Fits
	quantity int
}

// Key is the cell's Key for a quantity, made once: cells with one text share their Fits.
func (p *Platform) Key(f *model.Fits, quantity int) string {
	s := saying{f, quantity}
	key, ok := p.keys[s]
	if !ok {
		key = f.Key(quantity)
		p.keys[s] = key
	}
	return key
}

// rowBox is a Fitment row as a box.
type rowBox struct {
	row *model.Fitment
	box space.Box
}

// Road spreads the number of a Vehicles row over its configurations.
type Road struct {
	Row *model.Vehicles
	Box space.Box
	per *big.Rat // vehicles per configuration, and of a stretch per number or day
}

// NewPlatform builds the space of a platform in an arena, which forgets what it held;
// nil is a new one; budget is its number of nodes, 0 the usual one. ErrBudget says that
// even the vehicles that exist are too irregular.
func NewPlatform(x *Index, p *model.Platform, arena *space.Space, budget int) (*Platform, error) {
	out := Gather(x, p, nil)
	sizes := out.sizes()
	options := space.Options{Order: space.Order(len(sizes), out.Boxes()), Budget: budget}
	if arena == nil {
		arena = space.New(sizes, options)
	} else {
		arena.Reset(sizes, options)
	}
	return out, out.Enter(arena)
}

// Gather puts the rows about a platform into boxes: of the platform's own space, or of
// one that it shares, as the frame says. The platform has to Enter that space before
// regions can be asked for.
func Gather(x *Index, p *model.Platform, f *Frame) *Platform {
	out := &Platform{Model: p, Cat: x.on(p), Rules: x.rules[p.Index], Complaints: x.complains[p.Index], Inspections: x.inspects[p.Index], frame: f, positions: x.positions[p.Index],
		cells: make([][]*Cell, len(x.cat.Positions)), keys: map[saying]string{}, within: x.within != nil}
	for _, v := range x.vehicles[p.Index] {
		box := out.Bounds(&v.When)
		if f != nil && box[0] == nil { // any of its own years, and the space has others
			box[0] = space.SetOf(f.Years...)
		}
		if in, ok := x.bound(out, box); ok {
			out.vehicles = append(out.vehicles, in)
			out.stated = append(out.stated, statedRow{v, in})
		}
		if per, ok := x.per(v); ok {
			out.roads = append(out.roads, Road{v, box, per})
		}
	}
	out.measured(x)
	out.breakRows(x.breaks[p.Index])
	for _, row := range x.fitments[p.Index] {
		r := &rowBox{row, out.Bounds(&row.When)}
		out.rows = append(out.rows, r)
		for _, c := range row.Cells {
			i := c.Position.Index
			out.cells[i] = append(out.cells[i], &Cell{FitCell: c, Box: r.box})
		}
	}
	out.factCells(x.facts[p.Index])
	return out
}

// Boxes gives the fitment rows as boxes: a good order of the space's traits is found
// from them.
func (p *Platform) Boxes() []space.Box {
	out := make([]space.Box, len(p.rows))
	for i, r := range p.rows {
		out[i] = r.box
	}
	return out
}

// Vehicles gives the Vehicles rows as boxes.
func (p *Platform) Vehicles() []space.Box { return p.vehicles }

// Enter works out in a space which configurations exist. ErrBudget says that they are
// too irregular.
func (p *Platform) Enter(s *space.Space) error {
	p.Space = s
	return s.Try(func() {
		p.Stated = s.UnionBoxes(p.vehicles)
		p.All = p.Stated
		p.breakOff()
	})
}

// bound gives what of a box of vehicles there is within the index; false for nothing.
func (x *Index) bound(p *Platform, box space.Box) (space.Box, bool) {
	if x.within == nil {
		return box, true
	}
	if !x.within.Concerns(p.Model) {
		return nil, false
	}
	return box.Intersect(p.Bounds(x.within))
}

// sizes gives the number of values of each trait of the space. A platform whose years
// could not be read has one year that no box holds.
func (p *Platform) sizes() []int {
	sizes := []int{max(1, len(p.Model.Years))}
	for _, t := range p.Cat.Traits {
		sizes = append(sizes, t.Absent()+1)
	}
	return sizes
}

// Bounds gives a condition as a box of the space. A condition that can hold for no
// vehicle of the platform is a box with an empty set.
func (p *Platform) Bounds(w *model.When) space.Box {
	if p.frame != nil {
		return p.frame.place(p.own(w))
	}
	return p.own(w)
}

// own gives a condition as a box of the platform's own space.
func (p *Platform) own(w *model.When) space.Box {
	box := numbered(p.Model, w.Years, p.local(w.Traits))
	if len(p.Model.Years) == 0 {
		box[0] = p.Model.YearSet(w.Years)
	}
	return box
}

// local gives conditions in the values that the traits have on the platform.
func (p *Platform) local(traits []model.TraitSet) []model.TraitSet {
	if !slices.ContainsFunc(traits, func(t model.TraitSet) bool { return t.Trait.Kind.OnLine() }) {
		return traits
	}
	out := slices.Clone(traits)
	for i, t := range out {
		here := p.Cat.Traits[t.Trait.Index]
		out[i] = model.TraitSet{Trait: here, Values: t.On(here)}
	}
	return out
}

// numbered puts years and traits into the numbers of a platform's own space.
func numbered(p *model.Platform, years *model.Years, traits []model.TraitSet) space.Box {
	last := 0
	for _, t := range traits {
		last = max(last, t.Trait.Index+1)
	}
	box := make(space.Box, last+1)
	if years != nil {
		box[0] = p.YearSet(years)
	}
	for _, t := range traits {
		box[t.Trait.Index+1] = t.Values
	}
	return box
}

// Per is how many vehicles there are of each configuration of the box; where it has a
// stretch, of each number or day of it.
func (r Road) Per() *big.Rat { return r.per }

// Roads gives the Vehicles rows of the platform that say how many are on the road.
func (p *Platform) Roads() []Road { return p.roads }

// Road gives how many vehicles of a region are on the road.
func (p *Platform) Road(r space.Region) *big.Rat {
	sum := new(big.Rat)
	for _, v := range p.roads {
		n := p.Weigh(r, v.Box)
		sum.Add(sum, new(big.Rat).Mul(v.per, new(big.Rat).SetInt(n)))
	}
	return sum
}

// Words gives a box in the words of the catalogue.
func (p *Platform) Words(b space.Box) model.Box {
	var out model.Box
	for i, set := range b {
		switch {
		case set == nil:
		case i == 0:
			out.Years = p.Model.Spans(set)
		default:
			out.Traits = append(out.Traits, model.TraitSet{Trait: p.Cat.Traits[i-1], Values: set})
		}
	}
	return out
}

// Example gives the first configuration of a region in the words of the catalogue,
// nil where the region is empty. Traits that the platform never has are left out.
func (p *Platform) Example(r space.Region) *model.Example {
	c, ok := p.First(r)
	if !ok {
		return nil
	}
	return p.ExampleOf(c)
}

// ExampleOf puts one configuration into the words of the catalogue.
func (p *Platform) ExampleOf(c []int) *model.Example {
	e := &model.Example{Year: p.Model.Years[c[0]]}
	for i, t := range p.Cat.Traits {
		if p.Has(t) {
			e.Traits = append(e.Traits, model.TraitValue{Trait: t, Value: c[i+1]})
		}
	}
	return e
}

// Has tells whether a vehicle of the platform has the trait.
func (p *Platform) Has(t *model.Trait) bool {
	box := make(space.Box, t.Index+2)
	box[t.Index+1] = space.All(len(t.Values))
	return p.Meets(p.All, box)
}

// Reached calls f for every row that matches a vehicle that exists; for a Vehicles row only where
// the catalogue has Breaks, and for a Breaks row where it excludes a vehicle. Rows are the
// model's own pointers.
func (p *Platform) Reached(f func(row any)) {
	p.breaksReached(f)
	p.rowBoxes(func(row any, box space.Box) {
		if p.Meets(p.All, box) {
			f(row)
		}
	})
}

// RuledOut calls f for every row that matches a vehicle that Vehicles rows list, and none that
// exists, with the Breaks rows because of which. It runs inside Try.
func (p *Platform) RuledOut(f func(row any, by []*model.Break)) {
	if len(p.breaks) == 0 {
		return
	}
	p.rowBoxes(func(row any, box space.Box) {
		if p.Meets(p.Stated, box) && !p.Meets(p.All, box) {
			f(row, p.Excluding(box))
		}
	})
}

// rowBoxes goes through the rows other than those of Vehicles and Breaks.
func (p *Platform) rowBoxes(f func(row any, box space.Box)) {
	for _, r := range p.rows {
		f(r.row, r.box)
	}
	for _, r := range p.Rules {
		f(r, p.Bounds(&r.When))
	}
	for _, r := range p.positions {
		f(r, p.Bounds(&r.When))
	}
	for _, r := range p.factRows {
		f(r.FactRow, r.Box)
	}
	for _, c := range p.Complaints {
		f(c, p.Bounds(&c.When))
	}
	for _, i := range p.Inspections {
		f(i, p.Bounds(&i.When))
	}
}

// Cells gives the fitment cells that may say something of a position.
func (p *Platform) Cells(pos *model.Position) []*Cell { return p.cells[pos.Index] }

// Concerns tells whether a Positions row is about the platform.
func (p *Platform) Concerns(row *model.PositionRow) bool {
	return slices.Contains(p.positions, row)
}
