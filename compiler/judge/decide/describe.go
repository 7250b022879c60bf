package decide

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Mention is a set of traits of the space, by number: those that rows name.
type Mention []bool

// Box adds the traits that a box restricts.
func (m Mention) Box(b space.Box) {
	for i, set := range b {
		if set != nil {
			m[i] = true
		}
	}
}

// Add adds the traits of another.
func (m Mention) Add(o Mention) {
	for i, in := range o {
		m[i] = m[i] || in
	}
}

// Trait adds a trait of the catalogue.
func (m Mention) Trait(t *model.Trait) { m[t.Index+1] = true }

// only gives a box without the traits that are not mentioned.
func (m Mention) only(b space.Box) space.Box {
	out := make(space.Box, len(m))
	for t, in := range m {
		if in {
			out[t] = b.At(t)
		}
	}
	return out
}

func (m Mention) list() []int {
	var out []int
	for i, in := range m {
		if in {
			out = append(out, i)
		}
	}
	return out
}

// Mention gives no traits, to be added to.
func (p *Platform) Mention() Mention { return make(Mention, p.Traits()) }

// Mentioned gives the traits that the position's rows name: what is said of it depends
// on nothing else. The caller may add to the result.
func (pl *Mount) Mentioned() Mention {
	if pl.mentioned == nil {
		pl.mentioned = pl.mention()
	}
	return slices.Clone(pl.mentioned)
}

func (pl *Mount) mention() Mention {
	m := pl.Mention()
	for _, r := range pl.positions {
		if r.Position == pl.Position {
			m.Box(pl.Bounds(&r.When))
		}
	}
	for i := range pl.Levels {
		for _, c := range pl.Levels[i].Cells {
			m.Box(c.Box)
		}
	}
	return m
}

// Describe gives few boxes for a region, as Cover does, in the traits that rows name
// where those suffice. Among the configurations that exist other traits might say the
// same in fewer words, but nobody who wrote the rows was thinking of them. It runs
// inside Try.
func (p *Platform) Describe(region space.Region, m Mention, max int) ([]space.Box, space.Region) {
	return Describe(p.Space, p.All, region, m, max)
}

// Describe is Platform.Describe where other configurations exist than those of one
// platform. It runs inside Try.
func Describe(s *space.Space, all, region space.Region, m Mention, max int) ([]space.Box, space.Region) {
	view, care := view(s, all, []space.Region{region}, m)
	boxes, rest := s.Cover(view[0], care, max)
	for i, b := range boxes {
		boxes[i] = narrow(s, all, b)
	}
	return boxes, s.Intersect(rest, all)
}

// narrow drops from a box the values of traits that no configuration in it has: they
// say nothing and read as if such vehicles were meant. Years stay whole ranges.
func narrow(s *space.Space, all space.Region, b space.Box) space.Box {
	out := slices.Clone(b)
	for i, set := range b {
		if i > 0 && set != nil {
			out[i] = set.And(s.ValuesIn(all, b, i))
		}
	}
	return out
}

// view forgets all traits but the mentioned ones, for regions that depend on no other;
// otherwise it gives back the regions as they are, and all that exists.
func view(s *space.Space, all space.Region, regions []space.Region, m Mention) ([]space.Region, space.Region) {
	if m == nil {
		return regions, all
	}
	traits := m.list()
	out := make([]space.Region, len(regions))
	for i, r := range regions {
		out[i] = s.Project(r, traits)
		if s.Intersect(out[i], all) != r {
			return regions, all
		}
	}
	return out, s.Project(all, traits)
}
