package check

import (
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
	"slices"
)

// needed notes who says what is decided on a level. Where that is too irregular to be
// worked out, every cell is needed.
func (p *Position) needed(level *decide.Level) {
	var found needs
	if err := p.Try(func() { found = p.sayers(level) }); err != nil {
		p.on.found.needs.keep(level.Cells)
		return
	}
	p.on.found.needs.add(&found)
}

// sayers gives, for all that a level decides, which cells say it.
func (p *Position) sayers(level *decide.Level) needs {
	var out needs
	alike, doubtful := p.alike(level), map[*decide.Cell]int{}
	for i, c := range level.Cells {
		switch {
		case !p.Reaches(level, c):
		case p.covered(level, c, alike[c]):
			doubtful[c] = i
		default:
			out.one(c.At)
		}
	}
	for _, c := range level.Cells {
		if _, ok := doubtful[c]; ok && !p.shared(level, c, alike[c], doubtful, &out) {
			out.one(c.At)
		}
	}
	return out
}

// maxShared is how many groups of cells may share what one of them says; a cell that
// shares it with more stays.
const maxShared = 1000

// shared notes with whom a cell shares what it says, where no cell stays anyway that says
// it: of cells that share it, the first in the level notes it. false says that there are
// too many groups.
func (p *Position) shared(level *decide.Level, c *decide.Cell, alike []*decide.Cell, doubtful map[*decide.Cell]int, out *needs) bool {
	for _, v := range p.Variants {
		key := p.Key(c.Fits, v.Row.Quantity)
		left := p.Intersect(p.Decides(level, c), v.Where)
		var with []*decide.Cell
		for _, o := range alike {
			i, ok := doubtful[o]
			switch {
			case p.Key(o.Fits, v.Row.Quantity) != key:
			case !ok || i < doubtful[c]:
				left = p.Minus(left, p.Box(o.Box))
			default:
				with = append(with, o)
			}
		}
		if !p.groups(left, c, with, out) {
			return false
		}
	}
	return true
}

// groups splits a region that a cell decides by the others that say the same there, and
// notes each group; false where there are more than maxShared.
func (p *Position) groups(region space.Region, c *decide.Cell, with []*decide.Cell, out *needs) bool {
	type group struct {
		where space.Region
		cells []cell.Place
	}
	all := []group{{region, []cell.Place{c.At}}}
	for _, o := range with {
		box := p.Box(o.Box)
		var next []group
		for _, g := range all {
			in := p.Intersect(g.where, box)
			if in != space.Empty {
				next = append(next, group{in, append(slices.Clone(g.cells), o.At)})
			}
			if rest := p.Minus(g.where, in); rest != space.Empty {
				next = append(next, group{rest, g.cells})
			}
		}
		if all = next; len(all) > maxShared {
			return false
		}
	}
	for _, g := range all {
		if g.where != space.Empty {
			out.one(g.cells...)
		}
	}
	return true
}

// alike gives, for each cell of a level, those that meet it where the level decides and
// agree with it for some quantity.
func (p *Position) alike(level *decide.Level) map[*decide.Cell][]*decide.Cell {
	out := map[*decide.Cell][]*decide.Cell{}
	for i, v := range p.Variants {
		if slices.ContainsFunc(p.Variants[:i], func(w decide.Variant) bool { return w.Row.Quantity == v.Row.Quantity }) {
			continue
		}
		for _, g := range p.Agreeing(level, v.Row.Quantity) {
			p.eachMeeting(level, g, func(a, b *decide.Cell) { out[a], out[b] = append(out[a], b), append(out[b], a) })
		}
	}
	return out
}

// few is how many cells are quicker held against each other one by one.
const few = 64

// eachMeeting calls f for every two cells of a group that meet.
func (p *Position) eachMeeting(level *decide.Level, g []*decide.Cell, f func(a, b *decide.Cell)) {
	if len(g) <= few {
		for i, a := range g {
			for _, b := range g[i+1:] {
				if a.Box.Meets(b.Box) {
					f(a, b)
				}
			}
		}
		return
	}
	boxes := make([]space.Box, len(g))
	for i, c := range g {
		boxes[i] = c.Box
	}
	p.Pairs(boxes, level.Open, func(i, j int) bool {
		f(g[i], g[j])
		return true
	})
}

// covered tells whether other cells say everything that a cell does.
func (p *Position) covered(level *decide.Level, c *decide.Cell, others []*decide.Cell) bool {
	if !p.Reaches(level, c) {
		return true
	}
	if len(others) == 0 {
		return false
	}
	region := p.Decides(level, c)
	for _, v := range p.Variants {
		here := p.Intersect(region, v.Where)
		if here == space.Empty {
			continue
		}
		key := p.Key(c.Fits, v.Row.Quantity)
		var boxes []space.Box
		for _, o := range others {
			if p.Key(o.Fits, v.Row.Quantity) == key {
				boxes = append(boxes, o.Box)
			}
		}
		if len(boxes) == 0 || p.Minus(here, p.UnionBoxes(boxes)) != space.Empty {
			return false
		}
	}
	return true
}
