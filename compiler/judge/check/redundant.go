package check

import (
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

var cellRedundant = &Check{
	Kind: finding.Kind{Code: "cell-redundant", Severity: "note",
		Summary: "a fitment cell never decides anything that other cells do not already say",
		Doc:     "Other cells of its precedence say the same on all its vehicles, or cells of a higher precedence decide there first, or the position exists on none of them. All cells that are named can be emptied together without a change to what any vehicle gets; a note that stands only in such a row is no longer printed. A merged range is one cell, and stays where it is needed at one of its positions or on one platform. Of cells that say the same, the one with the most conditions is named.",
		Before:  "Fitment!A2  H7  B2  (any year)  C2  HD-20\nFitment!A3  H7  B3  2007        C3  HD-20",
		After:   "Fitment!A2  H7  B2  (any year)  C2  HD-20"},
	Position: func(p *Position) {
		for i := range p.Levels {
			p.needed(&p.Levels[i])
		}
	},
	Catalogue: func(c *Catalogue) {
		told := map[cell.Place]bool{}
		for _, f := range c.Fitments {
			for _, fc := range f.Cells {
				if c.Needed[fc.At] || told[fc.At] || !c.mayBeIdle(f) {
					continue
				}
				told[fc.At] = true
				if cause := c.owed.Vacant(fc.Position); cause != nil {
					cause.Owe("cell-redundant", 1) // the position may exist where the cell decides
					continue
				}
				c.Report(&finding.Finding{Code: "cell-redundant", Severity: finding.Note, Position: fc.Position.Name,
					Message: "the cell never decides anything that other cells do not already say",
					Cells:   finding.At(fc.At),
					Fix:     "empty it, or correct the conditions of its row"})
			}
		}
	},
}

// mayBeIdle tells whether all is known about a row that matches something.
func (c *Catalogue) mayBeIdle(f *model.Fitment) bool {
	return !f.When.Dead && c.Reached[f] && !f.When.Partial(c.Catalogue)
}

// needed notes who says what is decided on a level. Where that is too irregular to be
// worked out, every cell is needed.
func (p *Position) needed(level *decide.Level) {
	var found needs
	if err := p.Try(func() { found = p.sayers(level) }); err != nil {
		p.run.needs.keep(level.Cells)
		return
	}
	p.run.needs.add(&found)
}

// sayers gives, for all that a level decides, which cells say it.
func (p *Position) sayers(level *decide.Level) needs {
	var out needs
	alike, doubtful := p.alike(level), map[*decide.Cell]int{}
	for i, c := range level.Cells {
		switch {
		case !p.Meets(level.Open, c.Box):
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
	out := make(map[*decide.Cell][]*decide.Cell, len(level.Cells))
	for i, v := range p.Variants {
		if slices.ContainsFunc(p.Variants[:i], func(w decide.Variant) bool { return w.Row.Quantity == v.Row.Quantity }) {
			continue
		}
		index := map[string]int{}
		var groups [][]*decide.Cell
		for _, c := range level.Cells {
			key := p.Key(c.Fits, v.Row.Quantity)
			k, ok := index[key]
			if !ok {
				k = len(groups)
				index[key], groups = k, append(groups, nil)
			}
			groups[k] = append(groups[k], c)
		}
		for _, g := range groups {
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
	if !p.Meets(level.Open, c.Box) {
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
