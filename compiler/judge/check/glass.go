package check

import (
	"fmt"
	"math/big"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
)

// glass is a position with the one opposite as it is on the mirror images of the platform's
// vehicles.
type glass struct {
	*Position
	mirror *decide.Mirror
	asked  decide.Mention
	image  *decide.Mount
}

// contrast is where the position takes one kind and the one opposite, on the mirror image,
// another, and a part of the two that goes on either side.
type contrast struct {
	a, b   kind
	part   *model.Part
	region space.Region
}

// clearest looks at a pair in one mirror after another, and gives the one in which the fewest
// vehicles differ, the first of several: a trait that names a side may decide for both sides
// alike, as the side of the steering wheel does, and is then not to be exchanged with others.
func (p *Position) clearest(other *decide.Mount, asked decide.Mention) (best *glass, found []contrast) {
	var least *big.Int
	for _, m := range p.on.run.mirror.Ways(asked) {
		g := &glass{p, m, asked, m.Seen(p.Platform, other.Position, asked)}
		these, all := g.look()
		if n := p.Count(all); least == nil || n.Cmp(least) < 0 {
			best, found, least = g, these, n
		}
		if least.Sign() == 0 {
			break
		}
	}
	return best, found
}

// look gives where the two sides differ, by what they take and together.
func (p *glass) look() (found []contrast, all space.Region) {
	all = space.Empty
	for _, a := range kinds(p.Mount) {
		for _, b := range kinds(p.image) {
			u := contrast{a: a, b: b, part: p.on.run.either.first(a.fits, b.fits)}
			if a.said == b.said || u.part == nil {
				continue
			}
			if u.region = p.unexcused(a, b); u.region != space.Empty {
				found, all = append(found, u), p.Union(all, u.region)
			}
		}
	}
	return found, all
}

// unexcused gives where the two take these kinds and nothing excuses it.
func (p *glass) unexcused(a, b kind) space.Region {
	region := p.Intersect(a.where, b.where)
	if region == space.Empty {
		return region
	}
	region = p.Minus(region, p.Union(wrongLine(p.Mount, a.fits), wrongLine(p.image, b.fits)))
	region = p.Minus(region, p.meant(region))
	if region != space.Empty { // what a trait that names a side decides for both sides alike is even
		mirrored := p.mirror.Seen(p.Platform, p.Mount.Position, p.asked)
		region = p.Minus(region, p.Intersect(even(p.Mount, p.pair), even(mirrored, p.image)))
	}
	return region
}

// even gives where the sides of a pair take the same parts.
func even(left, right *decide.Mount) space.Region {
	out := space.Empty
	for _, a := range kinds(left) {
		for _, b := range kinds(right) {
			if a.said == b.said {
				out = left.Union(out, left.Intersect(a.where, b.where))
			}
		}
	}
	return out
}

// wrongLine gives where a part of a cell is for another size of line than the position has:
// line-size-mismatch tells of that.
func wrongLine(pl *decide.Mount, f *model.Fits) space.Region {
	out := space.Empty
	for _, v := range pl.Variants {
		if v.Row.AirLine == nil {
			continue
		}
		f.Parts(func(part *model.Part) {
			if part.Line == nil {
				return
			}
			box := make(space.Box, v.Row.AirLine.Index+2)
			box[v.Row.AirLine.Index+1] = others(v.Row.AirLine, part.Line)
			out = pl.Union(out, pl.Intersect(v.Where, pl.Box(box)))
		})
	}
	return out
}

// exchanged names the traits that have their sides exchanged on the mirror image.
func (p *glass) exchanged() string {
	var names []string
	for i, t := range p.Cat.Traits {
		if p.mirror.Swaps(i, p.asked) && p.Has(t) {
			names = append(names, t.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf(" where %s has left and right exchanged", word.List(names, "or"))
}

// meant gives where the cells of one side ask for the years, or for a trait that names no
// side, and those of the other do not.
func (p *glass) meant(within space.Region) space.Region {
	out := space.Empty
	for t := range p.asked {
		if !p.asked[t] || t > 0 && p.mirror.Swaps(t-1, p.asked) {
			continue
		}
		a, b := asks(p.Mount, t, within), asks(p.image, t, within)
		out = p.Union(out, p.Union(p.Minus(a, b), p.Minus(b, a)))
	}
	return out
}

// asks gives where in a region a cell of a position asks for a trait of the space, of the
// precedence that decides or a higher one: it holds there, or would if the trait were another.
func asks(pl *decide.Mount, trait int, within space.Region) space.Region {
	out := space.Empty
	for i := range pl.Levels {
		open := pl.Intersect(within, pl.Levels[i].Open)
		for _, c := range pl.Levels[i].Cells {
			if c.Box.At(trait) != nil {
				out = pl.Union(out, pl.Intersect(open, pl.Box(c.Box.With(trait, nil))))
			}
		}
	}
	return out
}
