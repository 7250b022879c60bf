package decide

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// decide gives each configuration in which the position exists its outcome.
func (pl *Mount) decide() {
	gap := pl.Exists
	for i := range pl.Levels {
		level := &pl.Levels[i]
		for _, v := range pl.Variants {
			if at := pl.Intersect(v.Where, level.Open); at != space.Empty {
				gap = pl.Minus(gap, pl.decideVariant(level, v, at))
			}
		}
	}
	pl.Outcome[model.Gap] = gap
}

// decideVariant decides one level where the quantity is one, and gives where it does. Only
// cells that meet others which say something else are held against them; what the rest of
// an outcome say is joined as a whole.
func (pl *Mount) decideVariant(level *Level, v Variant, at space.Region) space.Region {
	groups := pl.Agreeing(level, v.Row.Quantity)
	said, conflict := space.Empty, space.Empty
	var by [model.Outcomes]space.Region
	var alone [model.Outcomes][]space.Box
	for i, rival := range rivals(groups) {
		o := groups[i][0].Fits.Outcome
		if !rival {
			alone[o] = append(alone[o], boxesOf(groups[i])...)
			continue
		}
		where := pl.inside(boxesOf(groups[i]), at)
		conflict = pl.Union(conflict, pl.Intersect(said, where))
		said, by[o] = pl.Union(said, where), pl.Union(by[o], where)
	}
	pl.Outcome[model.Conflict] = pl.Union(pl.Outcome[model.Conflict], conflict)
	for o := range by {
		where := pl.inside(alone[o], at)
		said = pl.Union(said, where)
		clear := pl.Union(where, pl.Minus(by[o], conflict))
		pl.Outcome[o] = pl.Union(pl.Outcome[o], clear)
	}
	return said
}

// Agreeing groups the cells of a level that say the same for a quantity, in order of
// their first cell. The groups are the level's own.
func (pl *Mount) Agreeing(level *Level, quantity int) [][]*Cell {
	i := slices.IndexFunc(level.agree, func(a agreement) bool { return a.quantity == quantity })
	if i < 0 {
		i = len(level.agree)
		level.agree = append(level.agree, agreement{quantity, pl.agreeing(level.Cells, quantity)})
	}
	return level.agree[i].groups
}

// agreement is which cells of a level agree for a quantity.
type agreement struct {
	quantity int
	groups   [][]*Cell
}

func (pl *Mount) agreeing(cells []*Cell, quantity int) [][]*Cell {
	index := make(map[string]int, len(cells))
	group := make([]int, len(cells)) // of each cell
	var size []int
	for k, c := range cells {
		key := pl.Key(c.Fits, quantity)
		i, ok := index[key]
		if !ok {
			i = len(size)
			index[key], size = i, append(size, 0)
		}
		group[k] = i
		size[i]++
	}
	groups, room := make([][]*Cell, len(size)), make([]*Cell, len(cells))
	for i, n := range size {
		groups[i], room = room[:0:n], room[n:]
	}
	for k, c := range cells {
		groups[group[k]] = append(groups[group[k]], c)
	}
	return groups
}

// few is how many cells are quicker held against each other one by one.
const few = 64

// rivals tells which groups may have a cell that meets one of another group.
func rivals(groups [][]*Cell) []bool {
	cells := 0
	for _, g := range groups {
		cells += len(g)
	}
	out := make([]bool, len(groups))
	for i, g := range groups {
		for k, o := range groups[:i] {
			if !(out[i] && out[k]) && (cells > few || meet(g, o)) {
				out[i], out[k] = true, true
			}
		}
	}
	return out
}

// meet tells whether a cell of one group meets one of another.
func meet(a, b []*Cell) bool {
	return slices.ContainsFunc(a, func(c *Cell) bool {
		return slices.ContainsFunc(b, func(o *Cell) bool { return c.Box.Meets(o.Box) })
	})
}

// inside gives what of some boxes is in a region. Mostly all of them together are simpler
// than what is in the region of each; where they are not, there may be room for the latter.
func (p *Platform) inside(boxes []space.Box, at space.Region) space.Region {
	out := space.Empty
	if len(boxes) == 0 || p.Try(func() { out = p.Intersect(p.UnionBoxes(boxes), at) }) == nil {
		return out
	}
	for _, b := range boxes {
		out = p.Union(out, p.Intersect(p.Box(b), at))
	}
	return out
}

func boxesOf(cells []*Cell) []space.Box {
	out := make([]space.Box, len(cells))
	for i, c := range cells {
		out[i] = c.Box
	}
	return out
}

// Offer is what cells that agree say is fitted, and where they decide. Two offers of a
// place may say the same, for another quantity or at another precedence.
type Offer struct {
	Fits     *model.Fits // of one of the cells
	Quantity int         // the position's there
	Where    space.Region
}

// Offers gives what is fitted where: together they are Outcome[Fitted]. It runs inside Try.
func (pl *Mount) Offers() []Offer {
	var out []Offer
	for i := range pl.Levels {
		level := &pl.Levels[i]
		for _, v := range pl.Variants {
			at := pl.Minus(pl.Intersect(v.Where, level.Open), pl.Outcome[model.Conflict])
			if at == space.Empty {
				continue
			}
			for _, g := range pl.Agreeing(level, v.Row.Quantity) {
				if g[0].Fits.Outcome != model.Fitted {
					continue
				}
				if where := pl.inside(boxesOf(g), at); where != space.Empty {
					out = append(out, Offer{g[0].Fits, v.Row.Quantity, where})
				}
			}
		}
	}
	return out
}
