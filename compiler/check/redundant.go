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
		Doc:     "Other cells of its precedence say the same on all its vehicles, or cells of a higher precedence decide there first, or the position exists on none of them. All cells that are named can be emptied together without a change to any vehicle. Of cells that say the same, the one with the most conditions is named.",
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
				if f.When.Dead || !c.Reached[f] || needed[fc.At] {
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
	var out, kept []*decide.Cell
	for i, c := range order {
		if p.covered(level, c, order[:i]) {
			out = append(out, c)
		} else {
			kept = append(kept, c)
		}
	}
	for i := len(kept) - 1; i >= 0; i-- {
		c := kept[i]
		if len(c.Row.When.On(p.Cat)) != 1 {
			continue
		}
		if others := slices.Delete(slices.Clone(kept), i, i+1); p.covered(level, c, others) {
			out, kept = append(out, c), others
		}
	}
	return out
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
	var meet []*decide.Cell
	for _, o := range others {
		if o.Box.Meets(c.Box) {
			meet = append(meet, o)
		}
	}
	if !p.Meets(level.Open, c.Box) {
		return true
	}
	if len(meet) == 0 {
		return false
	}
	region := p.Decides(level, c)
	for _, v := range p.Variants {
		here := p.Intersect(region, v.Where)
		if here == space.Empty {
			continue
		}
		key := c.Fits.Key(v.Row.Quantity)
		var boxes []space.Box
		for _, o := range meet {
			if o.Fits.Key(v.Row.Quantity) == key {
				boxes = append(boxes, o.Box)
			}
		}
		if len(boxes) == 0 || p.Minus(here, p.UnionBoxes(boxes)) != space.Empty {
			return false
		}
	}
	return true
}
