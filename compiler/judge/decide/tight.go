package decide

import (
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Tight says a box by the vehicles in it that exist: each of its years, and each value
// of each trait, named, implied or left free, occurs in one of them. What the box names
// is named where it restricts anything, its years are always said, and what else holds
// of its vehicles is implied. The box must hold a vehicle.
func (p *Platform) Tight(b space.Box) model.Box {
	return p.tight(b, func(trait int) space.Set { return p.ValuesIn(p.All, b, trait) })
}

// tight is Tight where the values that occur in the box are known.
func (p *Platform) tight(b space.Box, values func(trait int) space.Set) model.Box {
	var out model.Box
	if set := values(0); set.Len() < p.allYears() {
		out.Years = p.Model.Runs(set)
	}
	for i, t := range p.Cat.Traits {
		has := p.has(i + 1)
		if has.Len() < 2 {
			continue
		}
		in := model.TraitSet{Trait: t, Values: values(i + 1)}
		switch {
		case in.Values.Equal(has):
		case b.At(i+1) == nil:
			out.So = append(out.So, in)
		default:
			out.Traits = append(out.Traits, in)
		}
	}
	return out
}

// allYears is how many years a box has that is about all of them: those of the platform,
// also where no vehicle is of some; or those that are asked about.
func (p *Platform) allYears() int {
	if p.within {
		return p.has(0).Len()
	}
	return len(p.Model.Years)
}

// has gives the values of a trait of the space that occur on the platform, by its
// Vehicles rows.
func (p *Platform) has(trait int) space.Set {
	if p.occur == nil {
		p.occur = make([]space.Set, p.Space.Traits())
		for _, v := range p.vehicles {
			for i := range p.occur {
				p.occur[i] = p.occur[i].Or(p.valuesOf(v, i))
			}
		}
	}
	return p.occur[trait]
}

// valuesOf gives the values of a trait in a box; none where the box holds nothing.
func (p *Platform) valuesOf(b space.Box, trait int) space.Set {
	for _, set := range b {
		if set != nil && set.IsEmpty() {
			return nil
		}
	}
	if set := b.At(trait); set != nil {
		return set
	}
	return space.All(p.Size(trait))
}

// Existing gives few boxes that hold the vehicles that exist, and nothing else.
func (p *Platform) Existing() []model.Box {
	rows := p.nonEmpty()
	var out []model.Box
	err := p.Try(func() {
		defer p.Release(p.Mark())
		if cover, rest := p.Cover(p.All, space.Full, len(rows)); rest == space.Empty {
			out = p.exact(cover)
		}
	})
	if err != nil || out == nil {
		return p.exact(rows)
	}
	return out
}

// Listed is Existing as the Vehicles rows say it, which takes no algebra.
func (p *Platform) Listed() []model.Box { return p.exact(p.nonEmpty()) }

// exact says boxes of which everything exists.
func (p *Platform) exact(boxes []space.Box) []model.Box {
	out := make([]model.Box, len(boxes))
	for i, b := range boxes {
		out[i] = p.tight(b, func(trait int) space.Set { return p.valuesOf(b, trait) }).Tight()
	}
	return out
}

// nonEmpty gives the boxes of Vehicles rows that hold a vehicle.
func (p *Platform) nonEmpty() []space.Box {
	var out []space.Box
	for _, v := range p.vehicles {
		if !p.valuesOf(v, 0).IsEmpty() {
			out = append(out, v)
		}
	}
	return out
}
