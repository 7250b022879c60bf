package decide

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Break is a Breaks row on one platform: vehicles with one of the values of a trait of the space
// exist in its box, or in that of another row that names the value, and nowhere else.
type Break struct {
	Row    *model.Break
	Trait  int // of the space; 0 where no vehicle can have one of the values
	Values space.Set
	Box    space.Box
}

func (p *Platform) breakRows(rows []*model.Break) {
	for _, r := range rows {
		value := p.Bounds(&model.When{Traits: []model.TraitSet{r.Value}})
		b := Break{Row: r, Box: p.Bounds(&r.When)}
		for i, set := range value {
			if i > 0 && set != nil {
				b.Trait, b.Values = i, set
			}
		}
		if b.Trait > 0 && !b.Values.IsEmpty() {
			p.breaks = append(p.breaks, b)
		}
	}
}

// breakOff takes what Breaks rows rule out from what exists. It runs inside Try.
func (p *Platform) breakOff() {
	if len(p.breaks) == 0 {
		return
	}
	rows := p.vehicles
	p.vehicles = nil // nothing is said of them where the space gets no further
	p.All = p.Leave(p.Stated, p.breaks)
	if p.All == p.Stated {
		p.vehicles = rows
		return
	}
	boxes, rest := p.Cover(p.All, space.Full, coverBoxes)
	if rest != space.Empty {
		boxes = boxes[:0]
		for _, c := range p.Partition([]space.Region{p.All, p.Minus(space.Full, p.All)}, space.Full) {
			if c.Class == 0 {
				boxes = append(boxes, c.Box)
			}
		}
	}
	p.vehicles = boxes
}

// coverBoxes is how many boxes are looked for that overlap; more of them are made without a
// search, and do not.
const coverBoxes = 2_000

// Leave gives what Breaks rows leave of some vehicles. It runs inside Try.
func (p *Platform) Leave(stated space.Region, rows []Break) space.Region {
	out := stated
	for i, b := range rows {
		if !slices.ContainsFunc(rows[:i], func(o Break) bool { return o.Trait == b.Trait }) {
			out = p.Intersect(out, p.built(rows, b.Trait))
		}
	}
	return out
}

// built gives the configurations that the rows of a trait allow.
func (p *Platform) built(rows []Break, trait int) space.Region {
	var named space.Set
	allowed := space.Empty
	for _, b := range rows {
		if b.Trait == trait {
			named = named.Or(b.Values)
			allowed = p.Union(allowed, p.Box(b.within()))
		}
	}
	return p.Union(allowed, p.Box(space.Box{}.With(trait, named.Not(p.Size(trait)))))
}

// within gives where the row lets its values be.
func (b Break) within() space.Box {
	out := slices.Clone(b.Box)
	set := b.Values
	if has := b.Box.At(b.Trait); has != nil {
		set = set.And(has)
	}
	return out.With(b.Trait, set)
}

// Excluded gives, row by row of Breaks, what it and those that name the same values take from the vehicles
// that Vehicles rows state. It runs inside Try.
func (p *Platform) Excluded() []space.Region {
	built, out := map[int]space.Region{}, make([]space.Region, len(p.breaks))
	for i, b := range p.breaks {
		if _, known := built[b.Trait]; !known {
			built[b.Trait] = p.built(p.breaks, b.Trait)
		}
		out[i] = p.excludes(b, built[b.Trait])
	}
	return out
}

// excludes gives what a row takes away where it is known what the rows of the trait allow.
func (p *Platform) excludes(b Break, built space.Region) space.Region {
	return p.Minus(p.Intersect(p.Stated, p.Box(space.Box{}.With(b.Trait, b.Values))), built)
}

// Breaks gives the Breaks rows that are about the platform.
func (p *Platform) Breaks() []Break { return p.breaks }

// Excluding gives the Breaks rows because of which some of a box does not exist. It runs inside
// Try.
func (p *Platform) Excluding(box space.Box) []*model.Break {
	if len(p.breaks) == 0 {
		return nil
	}
	return p.ExcludingOf(p.Box(box))
}

// ExcludingOf gives the Breaks rows because of which some of a region does not exist; those about
// one trait where they alone leave nothing of it. It runs inside Try.
func (p *Platform) ExcludingOf(region space.Region) []*model.Break {
	stated, seen := p.Intersect(region, p.Stated), map[int]bool{}
	for _, b := range p.breaks {
		if seen[b.Trait] {
			continue
		}
		seen[b.Trait] = true
		if p.Intersect(stated, p.built(p.breaks, b.Trait)) == space.Empty {
			return p.excluding(region, b.Trait)
		}
	}
	return p.excluding(region, 0)
}

// excluding gives the rows about a trait of the space that exclude some of a region; 0 is any.
func (p *Platform) excluding(region space.Region, trait int) []*model.Break {
	var out []*model.Break
	for i, excluded := range p.Excluded() {
		b := p.breaks[i]
		if (trait == 0 || b.Trait == trait) && p.Intersect(excluded, region) != space.Empty {
			out = append(out, b.Row)
		}
	}
	return out
}

// breaksReached calls f for every Breaks row that excludes a vehicle, and for every Vehicles row
// of which something is left.
func (p *Platform) breaksReached(f func(row any)) {
	if len(p.Cat.Breaks) == 0 {
		return
	}
	for _, v := range p.stated {
		if p.Meets(p.All, v.box) {
			f(v.row)
		}
	}
	// Where that is too irregular to be told the rows count as reached: nothing is said of them.
	built, irregular := map[int]space.Region{}, map[int]bool{}
	for _, b := range p.breaks {
		if _, known := built[b.Trait]; !known {
			irregular[b.Trait] = p.Try(func() { built[b.Trait] = p.built(p.breaks, b.Trait) }) != nil
		}
		excludes := true
		if !irregular[b.Trait] {
			_ = p.Try(func() { excludes = p.excludes(b, built[b.Trait]) != space.Empty })
		}
		if excludes {
			f(b.Row)
		}
	}
}
