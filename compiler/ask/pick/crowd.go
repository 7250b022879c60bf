package pick

import (
	"encoding/binary"
	"math/big"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Crowd answers for many vehicles of one platform what List answers for one, from what is worked
// out once of the platform as a whole. It is for one goroutine, and leaves out what only a pick
// list tells: how many vehicles there are (but that there are none), findings, and what the answers given imply.
type Crowd struct {
	desk   *Lookup
	whole  *vehicles
	places []crowdPlace
	kept   map[string]*List
}

// crowdPlace is one position with all its ways.
type crowdPlace struct {
	position *model.Position
	ways     []Way // of the whole platform, without where; the last is that the place is missing
	cases    []crowdCase
	rest     space.Region  // the vehicles without the position
	care     [][]crowdRule // by way: rules that ask for care with what it offers
}

type crowdRule struct {
	rule *model.Rule
	box  space.Box
}

type crowdCase struct {
	where  model.Box
	box    space.Box
	way    int
	region space.Region
}

// NewCrowd readies a platform by its guide with cases. It gives nil where the platform, or a
// position of it, is too irregular as a whole: then each vehicle is asked about by itself.
func (d *Lookup) NewCrowd(g *decide.Guide) *Crowd {
	p, err := decide.NewPlatform(d.index, g.Platform, nil, 0)
	if err != nil {
		return nil
	}
	c := &Crowd{desk: d, whole: &vehicles{Platform: p}, kept: map[string]*List{}}
	for _, a := range g.Answers {
		if !a.Exact {
			return nil
		}
		if p.Try(func() { c.places = append(c.places, c.place(a)) }) != nil {
			return nil
		}
	}
	return c
}

// place sorts the cases of a position by what they say. It runs inside Try.
func (c *Crowd) place(a *decide.Answer) crowdPlace {
	v := c.whole
	out := crowdPlace{position: a.Position, rest: v.All}
	for _, k := range a.Cases {
		box := v.bounds(k.Where)
		at := crowdCase{where: k.Where, box: box, region: v.Intersect(v.All, v.Box(box))}
		at.way = slices.IndexFunc(out.ways, func(w Way) bool { return sameWay(w.Case, k) })
		if at.way < 0 {
			at.way = len(out.ways)
			out.ways = append(out.ways, Way{Case: k})
		} else if out.ways[at.way].Case.Quantity != k.Quantity {
			out.ways[at.way].Case.Quantity = 0
		}
		out.cases = append(out.cases, at)
		out.rest = v.Minus(out.rest, at.region)
	}
	out.care = make([][]crowdRule, len(out.ways)+1)
	for _, r := range v.Rules {
		for i := range out.ways {
			if r.Effect == model.Care && offers(&out.ways[i].Case, r) {
				out.care[i] = append(out.care[i], crowdRule{r, v.Bounds(&r.When)})
			}
		}
	}
	out.ways = append(out.ways, Way{Missing: true})
	return out
}

// Key is the same for two questions that are about the same vehicles.
func (c *Crowd) Key(q *Query) string { return string(keyOf(c.whole.Bounds(&q.When))) }

func keyOf(b space.Box) []byte {
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
	return out
}

// List answers a question; false where that is too irregular here. Questions about the same
// vehicles are answered once, by one List.
func (c *Crowd) List(q *Query) (*List, bool) {
	box := c.whole.Bounds(&q.When)
	key := string(keyOf(box))
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
	l.Order = order(l.Positions)
	return l
}

// crowdPart is the vehicles that one question is about.
type crowdPart struct {
	c      *Crowd
	box    space.Box
	inside *vehicles // once a place needs them; nil until then
}

// vehicles makes the space of the vehicles asked about alone.
func (s *crowdPart) vehicles() *vehicles {
	if s.inside == nil {
		p := *s.c.whole.Platform
		p.All = p.Intersect(p.All, p.Box(s.box))
		s.inside = &vehicles{Platform: &p}
	}
	return s.inside
}

// position gives the ways of one place on these vehicles; false where none of them has it.
func (s *crowdPart) position(pl *crowdPlace) (Position, bool) {
	may := make([]bool, len(pl.ways))
	n := 0
	add := func(way int) {
		if !may[way] {
			may[way] = true
			n++
		}
	}
	var near []*crowdCase // whose boxes meet what was told, whether or not a vehicle is in both
	for i := range pl.cases {
		if k := &pl.cases[i]; k.box.Meets(s.box) {
			near = append(near, k)
			add(k.way)
		}
	}
	if pl.rest != space.Empty {
		add(len(pl.ways) - 1)
	}
	if n > 1 {
		clear(may)
		n = 0
		for _, k := range near {
			if !may[k.way] && s.c.whole.Meets(k.region, s.box) {
				add(k.way)
			}
		}
		if s.c.whole.Meets(pl.rest, s.box) {
			add(len(pl.ways) - 1)
		}
	}
	out := Position{Position: pl.position, Exact: true}
	for i := range pl.ways {
		if may[i] {
			out.Ways = append(out.Ways, s.careful(pl, i, near))
		}
	}
	if len(out.Ways) > 1 {
		out.Depends = s.depends(pl, near, may, out.Ways)
	}
	return out, len(out.Ways) > 1 || !out.Ways[0].Missing
}

// careful gives a way with the rules that ask for care on some of these vehicles.
func (s *crowdPart) careful(pl *crowdPlace, way int, near []*crowdCase) Way {
	out := pl.ways[way]
	for _, r := range pl.care[way] {
		both, ok := s.box.Intersect(r.box)
		if ok && slices.ContainsFunc(near, func(k *crowdCase) bool { return k.way == way && s.c.whole.Meets(k.region, both) }) {
			out.Care = append(out.Care, Care{Rule: r.rule})
		}
	}
	return out
}

// depends gives the traits that settle which way it is.
func (s *crowdPart) depends(pl *crowdPlace, near []*crowdCase, may []bool, ways []Way) []*model.Trait {
	v := s.vehicles()
	regions := make([]space.Region, len(pl.ways))
	for i := range regions {
		regions[i] = space.Empty
	}
	for _, k := range near {
		regions[k.way] = v.Union(regions[k.way], v.Intersect(v.All, k.region))
	}
	regions[len(pl.ways)-1] = v.Intersect(v.All, pl.rest)
	told := slices.Clone(ways)
	var in []space.Region
	for i, n := 0, 0; i < len(pl.ways); i++ {
		if !may[i] {
			continue
		}
		for _, k := range near {
			if k.way == i {
				told[n].Where = append(told[n].Where, k.where)
			}
		}
		in = append(in, regions[i])
		n++
	}
	return v.depends(told, in)
}
