package check

import (
	"cmp"
	"slices"

	"ferrule/compiler/decide"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// doubtful is what one platform says about cells that might be redundant: needed holds
// those that decide something there which no other cell says.
type doubtful struct {
	needed map[*model.FitCell]bool
}

var cellRedundant = &Check{
	Kind: finding.Kind{Code: "cell-redundant", Severity: "note",
		Summary: "a fitment cell never decides anything that other cells do not already say",
		Doc:     "Other cells of its precedence say the same on all its vehicles, or cells of a higher precedence decide there first, or the position exists on none of them. All cells that are named can be emptied together without a change to what any vehicle gets; a note that stands only in such a row is no longer printed. Of cells that say the same, the one with the most conditions is named.",
		Before:  "Fitment!A2  H7  B2  (any year)  C2  HD-20\nFitment!A3  H7  B3  2007        C3  HD-20",
		After:   "Fitment!A2  H7  B2  (any year)  C2  HD-20"},
	Position: func(p *Position) {
		needed := p.run.doubtful.needed
		// A check that runs out of budget leaves every cell needed.
		for _, c := range p.all() {
			needed[c.FitCell] = true
		}
		for i := range p.Levels {
			for _, c := range p.redundant(&p.Levels[i]) {
				delete(needed, c.FitCell)
			}
		}
	},
	Catalogue: func(c *Catalogue) {
		needed := map[cell.Place]bool{}
		for _, f := range c.Fitments {
			for _, fc := range f.Cells {
				if c.Needed[fc] {
					needed[fc.At] = true
				}
			}
		}
		for _, f := range c.Fitments {
			for _, fc := range f.Cells {
				if f.When.Dead || !c.Reached[f] || needed[fc.At] || f.When.Partial(c.Catalogue) {
					continue
				}
				needed[fc.At] = true // told once
				c.Report(&finding.Finding{Code: "cell-redundant", Severity: finding.Note, Position: fc.Position.Name,
					Message: "the cell never decides anything that other cells do not already say",
					Cells:   finding.At(fc.At),
					Fix:     "empty it, or correct the conditions of its row"})
			}
		}
	},
}

func (p *Position) all() []*decide.Cell {
	var out []*decide.Cell
	for i := range p.Levels {
		out = append(out, p.Levels[i].Cells...)
	}
	return out
}

// redundant gives cells of a level that can be left out together. First each cell is
// held against those before it in an order that is the same on every platform, so that
// what is left out for all platforms can be left out at once; then, among the cells
// kept here, those of rows about this platform alone against all others kept.
func (p *Position) redundant(level *decide.Level) []*decide.Cell {
	order := slices.Clone(level.Cells)
	slices.SortStableFunc(order, func(a, b *decide.Cell) int {
		return cmp.Or(cmp.Compare(conditions(&a.Row.When), conditions(&b.Row.When)), cmp.Compare(a.Row.Index, b.Row.Index))
	})
	alike := p.alike(level, order)
	out, kept := map[*decide.Cell]bool{}, order[:0:0]
	for _, c := range order {
		// Those before it in the order, told or not: who is told is covered by others.
		if p.covered(level, c, alike[c].before) {
			out[c] = true
		} else {
			kept = append(kept, c)
		}
	}
	for _, c := range slices.Backward(kept) {
		if len(c.Row.When.On(p.Cat)) != 1 {
			continue
		}
		others := slices.DeleteFunc(slices.Concat(alike[c].before, alike[c].after), func(o *decide.Cell) bool { return out[o] })
		if p.covered(level, c, others) {
			out[c] = true
		}
	}
	return slices.DeleteFunc(order, func(c *decide.Cell) bool { return !out[c] })
}

// alike is the cells that meet a cell and may say the same, by their place in an order.
type alike struct{ before, after []*decide.Cell }

// alike gives, for each cell of an order, those that meet it where the level decides and
// agree with it for some quantity.
func (p *Position) alike(level *decide.Level, order []*decide.Cell) map[*decide.Cell]alike {
	out := make(map[*decide.Cell]alike, len(order))
	for i, v := range p.Variants {
		if slices.ContainsFunc(p.Variants[:i], func(w decide.Variant) bool { return w.Row.Quantity == v.Row.Quantity }) {
			continue
		}
		groups := map[string][]*decide.Cell{}
		for _, c := range order {
			key := p.Key(c.Fits, v.Row.Quantity)
			groups[key] = append(groups[key], c)
		}
		for _, g := range groups {
			p.eachMeeting(level, g, func(a, b *decide.Cell) {
				x, y := out[a], out[b]
				x.after, y.before = append(x.after, b), append(y.before, a)
				out[a], out[b] = x, y
			})
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

// conditions counts what a row restricts.
func conditions(w *model.When) int {
	n := len(w.Traits)
	if w.Years != nil {
		n++
	}
	if w.Platforms != nil {
		n++
	}
	return n
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
