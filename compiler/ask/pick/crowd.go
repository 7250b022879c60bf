package pick

import (
	"encoding/binary"
	"math/big"
	"slices"

	"ferrule/compiler/judge"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Crowd answers for many vehicles of one platform what List answers for one, from what is worked
// out once of the platform as a whole. It is for one goroutine, and leaves out what only a pick
// list tells: how many vehicles there are (but that there are none), findings, where the ways of a
// place hold, what the answers given imply, and which of them an inspection is about.
type Crowd struct {
	desk   *Lookup
	whole  *vehicles
	places []crowdPlace
	looks  []crowdLook
	kept   map[string]*List
}

// crowdLook is a row of Inspections with the vehicles that it is about.
type crowdLook struct {
	row    *model.Inspection
	region space.Region
}

// crowdPlace is one position with all its ways.
type crowdPlace struct {
	position *model.Position
	mentions decide.Mention
	ways     []crowdWay // the last is that the place is missing
}

// crowdWay is one thing that may be known of a place.
type crowdWay struct {
	Way
	region space.Region
	around space.Box   // all of the region is in it
	care   []crowdRule // rules that ask for care with what it offers
}

type crowdRule struct {
	rule *model.Rule
	box  space.Box
}

// NewCrowd readies a platform. It gives nil where that is too irregular: then each vehicle is asked
// about by itself.
func (d *Lookup) NewCrowd(g *judge.Ground) *Crowd {
	c := &Crowd{desk: d, whole: &vehicles{Platform: g.Platform}, kept: map[string]*List{}}
	for i := range g.Places {
		if g.Try(func() { c.places = append(c.places, c.place(&g.Places[i])) }) != nil {
			return nil
		}
	}
	if g.Try(c.look) != nil {
		return nil
	}
	return c
}

// look works out which vehicles each inspection is about, the gravest first. It runs inside Try.
func (c *Crowd) look() {
	for _, row := range slices.SortedStableFunc(slices.Values(c.whole.Inspections), model.Gravest) {
		if in, _ := c.whole.Inspected(row); in != space.Empty {
			c.looks = append(c.looks, crowdLook{row, in})
		}
	}
}

// place joins the classes of a position that print the same. It runs inside Try.
func (c *Crowd) place(from *judge.Place) crowdPlace {
	v := c.whole
	out := crowdPlace{position: from.Position, mentions: from.Mentions}
	rest := v.All
	for _, k := range from.Classes {
		rest = v.Minus(rest, k.Where)
		i := slices.IndexFunc(out.ways, func(w crowdWay) bool { return sameWay(w.Case, k.Case) })
		if i < 0 {
			out.ways = append(out.ways, crowdWay{Way: Way{Case: k.Case}, region: k.Where})
			continue
		}
		w := &out.ways[i]
		w.region = v.Union(w.region, k.Where)
		if w.Case.Quantity != k.Case.Quantity {
			w.Case.Quantity = 0
		}
	}
	out.ways = append(out.ways, crowdWay{Way: Way{Missing: true}, region: rest})
	for i := range out.ways {
		w := &out.ways[i]
		if w.region == space.Empty {
			continue
		}
		for t := range v.Traits() {
			w.around = append(w.around, v.Values(w.region, t))
		}
		for _, r := range v.Rules {
			if r.Effect == model.Care && !w.Missing && offers(&w.Case, r) {
				w.care = append(w.care, crowdRule{r, v.Bounds(&r.When)})
			}
		}
	}
	return out
}

// keyOf is the same for boxes that are the same.
func keyOf(b space.Box) string {
	var out []byte
	for t, set := range b {
		if set == nil {
			continue
		}
		out = binary.AppendUvarint(out, uint64(t)+1)
		out = binary.AppendUvarint(out, uint64(len(set)))
		for _, word := range set {
			out = binary.AppendUvarint(out, word)
		}
	}
	return string(out)
}

// List answers a question; false where that is too irregular here. Questions about the same
// vehicles are answered once, by one List.
func (c *Crowd) List(q *Query) (*List, bool) {
	box := c.whole.Bounds(&q.When)
	key := keyOf(box)
	if l, known := c.kept[key]; known {
		return l, l != nil
	}
	var l *List
	mark := c.whole.Mark()
	if c.whole.Try(func() { l = c.list(q, box) }) != nil {
		l = nil
	}
	c.whole.Release(mark)
	if l == nil || !l.Missing() { // of vehicles that do not exist is told what was asked, in its words
		c.kept[key] = l
	}
	return l, l != nil
}

// Missing tells whether no vehicle is such as was asked about.
func (l *List) Missing() bool { return l.Configurations != nil && l.Configurations.Sign() == 0 }

// Never gives what was told of traits, and of the model year, that none of the platform's vehicles
// has whatever else it is, with what they have instead.
func (c *Crowd) Never(q *Query) []Change {
	var out []Change
	p := c.whole.Platform
	for t, told := range p.Bounds(&q.When) {
		if told == nil {
			continue
		}
		has := p.Values(p.All, t)
		if has.Meets(told) {
			continue
		}
		was := model.Box{Years: q.years()}
		for _, set := range q.When.Traits {
			if set.Trait.Index == t-1 {
				was = model.Box{Traits: []model.TraitSet{set}}
			}
		}
		out = append(out, Change{traitOf(p, t), was, only(p, t, has)})
	}
	return out
}

// list works an answer out. It runs inside Try.
func (c *Crowd) list(q *Query, box space.Box) *List {
	l := &List{Query: q, yearTell: c.desk.cat.YearTell}
	if !c.whole.Meets(c.whole.All, box) {
		l.Configurations, l.Near = new(big.Int), q.nearest(c.whole.Platform)
		return l
	}
	some := &crowdPart{c: c, box: box}
	for i := range c.places {
		if pos, there := some.position(&c.places[i]); there {
			l.Positions = append(l.Positions, pos)
		}
	}
	if some.inside != nil {
		l.Open = some.inside.open(l.Positions)
	}
	for _, k := range c.looks {
		if c.whole.Meets(k.region, box) {
			l.Inspections = append(l.Inspections, decide.InspectionUse{Row: k.row})
		}
	}
	l.Order = order(l.Positions)
	return l
}

// crowdPart is the vehicles that one question is about.
type crowdPart struct {
	c       *Crowd
	box     space.Box
	inside  *vehicles // once a place needs them; nil until then
	unknown []int     // traits that differ among them
}

// vehicles makes the space of the vehicles asked about alone. It runs inside Try.
func (s *crowdPart) vehicles() *vehicles {
	if s.inside == nil {
		p := *s.c.whole.Platform
		p.All = p.Intersect(p.All, p.Box(s.box))
		s.inside = &vehicles{Platform: &p}
		s.unknown = s.inside.unknown()
	}
	return s.inside
}

// position gives the ways of one place on these vehicles; false where none of them has it. It runs
// inside Try.
func (s *crowdPart) position(pl *crowdPlace) (Position, bool) {
	var may []*crowdWay
	for i := range pl.ways {
		if w := &pl.ways[i]; w.region != space.Empty && w.around.Meets(s.box) {
			may = append(may, w)
		}
	}
	if len(may) > 1 {
		may = slices.DeleteFunc(may, func(w *crowdWay) bool { return !s.c.whole.Meets(w.region, s.box) })
	}
	out := Position{Position: pl.position, Exact: true}
	for _, w := range may {
		out.Ways = append(out.Ways, s.careful(w))
	}
	if len(may) > 1 {
		v := s.vehicles()
		regions := make([]space.Region, len(may))
		for i, w := range may {
			regions[i] = v.Intersect(v.All, w.region)
		}
		out.Depends = v.apart(regions, s.unknown, slices.Clone(pl.mentions))
	}
	return out, len(may) > 1 || !may[0].Missing
}

// careful gives a way with the rules that ask for care on some of these vehicles.
func (s *crowdPart) careful(w *crowdWay) Way {
	out := w.Way
	for _, r := range w.care {
		if both, ok := s.box.Intersect(r.box); ok && s.c.whole.Meets(w.region, both) {
			out.Care = append(out.Care, Care{Rule: r.rule})
		}
	}
	return out
}
