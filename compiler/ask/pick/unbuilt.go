package pick

import (
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Unbuilt is a Breaks row because of which there are no such vehicles, or fewer.
type Unbuilt struct {
	Row   *model.Break
	Value model.TraitSet // what the row is about, of what the platform has
	Only  model.Box      // where that exists, as far as the row says
	More  bool           // a row before this one is about some of the same values, and says where else
}

// unbuilt says why none of the vehicles asked about exists: listed tells whether Vehicles rows hold
// any, and the rows, which take those away, are none where that is too irregular to be told.
func unbuilt(p *decide.Platform, q *Query) (rows []Unbuilt, listed bool) {
	box := p.Bounds(&q.When)
	if !p.Meets(p.Stated, box) {
		return nil, false
	}
	defer p.Release(p.Mark())
	var by []decide.Break
	if p.Try(func() { by = decisive(p, p.Intersect(p.Stated, p.Box(box))) }) != nil {
		return nil, true
	}
	for _, x := range by {
		b := x.Row
		u := Unbuilt{Row: b, Value: here(p, b.Value), Only: model.Box{Years: yearsOf(p.Model, b.When.Years)}}
		for _, t := range b.When.Traits {
			u.Only.Traits = append(u.Only.Traits, here(p, t))
		}
		for _, before := range rows {
			u.More = u.More || before.Value.Trait == u.Value.Trait && before.Value.Values.Meets(u.Value.Values)
		}
		rows = append(rows, u)
	}
	return rows, true
}

// decisive gives the Breaks rows because of which nothing is left of some vehicles: those of each
// trait that leaves nothing by itself, and all that take something away where none does. It runs
// inside Try.
func decisive(p *decide.Platform, listed space.Region) []decide.Break {
	taken := map[int]space.Region{} // by trait
	var some, alone []decide.Break
	for i, excluded := range p.Excluded() {
		b := p.Breaks()[i]
		if out := p.Intersect(listed, excluded); out != space.Empty {
			some, taken[b.Trait] = append(some, b), p.Union(taken[b.Trait], out)
		}
	}
	for _, b := range some {
		if taken[b.Trait] == listed {
			alone = append(alone, b)
		}
	}
	if alone != nil {
		return alone
	}
	return some
}

// here gives a condition in the values that the trait has on the platform; as it stands where that
// is none of them.
func here(p *decide.Platform, t model.TraitSet) model.TraitSet {
	local := p.Cat.Traits[t.Trait.Index]
	out := model.TraitSet{Trait: local, Values: t.On(local)}
	if out.IsEmpty() {
		return t
	}
	return out
}
