package decide

import (
	"cmp"
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// FactCell is a cell of a Facts row on one platform.
type FactCell struct {
	*model.FactCell
	Box space.Box
}

// factRow is a Facts row as a box.
type factRow struct {
	*model.FactRow
	Box space.Box
}

// Fact is what the Facts sheets say of one fact on a platform.
type Fact struct {
	*model.Fact
	Levels []FactLevel // highest precedence first
}

// FactLevel holds the cells of one precedence.
type FactLevel struct {
	Cells []*FactCell // in the order of file, sheet, row, column
}

// factCells gathers the cells of each fact that are about the platform.
func (p *Platform) factCells(rows []*model.FactRow) {
	p.Facts = make([]Fact, len(p.Cat.Facts))
	for i, f := range p.Cat.Facts {
		p.Facts[i].Fact = f
	}
	for _, r := range rows {
		box := p.Bounds(&r.When)
		p.factRows = append(p.factRows, factRow{r, box})
		for _, c := range r.Cells {
			p.Facts[c.Fact.Index].add(&FactCell{c, box})
		}
	}
	for i := range p.Facts {
		f := &p.Facts[i]
		slices.SortFunc(f.Levels, func(a, b FactLevel) int { return -cmp.Compare(a.precedence(), b.precedence()) })
		for _, l := range f.Levels {
			slices.SortStableFunc(l.Cells, func(a, b *FactCell) int { return cell.Compare(a.At, b.At) })
		}
	}
}

func (l FactLevel) precedence() int { return l.Cells[0].Row.Precedence }

func (f *Fact) add(c *FactCell) {
	for i := range f.Levels {
		if f.Levels[i].precedence() == c.Row.Precedence {
			f.Levels[i].Cells = append(f.Levels[i].Cells, c)
			return
		}
	}
	f.Levels = append(f.Levels, FactLevel{[]*FactCell{c}})
}

// boxes gives the boxes of a level's cells for which keep holds.
func (l FactLevel) boxes(keep func(*FactCell) bool) []space.Box {
	var out []space.Box
	for _, c := range l.Cells {
		if keep(c) {
			out = append(out, c.Box)
		}
	}
	return out
}

func anyCell(*FactCell) bool { return true }

// FactOpen gives where no higher level of a fact decides. It runs inside Try.
func (p *Platform) FactOpen(f *Fact, level int) space.Region {
	open := p.All
	for _, l := range f.Levels[:level] {
		open = p.Minus(open, p.UnionBoxes(l.boxes(anyCell)))
	}
	return open
}

// FactSilent gives where no cell says what a fact is. It runs inside Try.
func (p *Platform) FactSilent(f *Fact) space.Region { return p.FactOpen(f, len(f.Levels)) }

// FactIs gives where the deciding cells of a fact all state one of its values. It runs
// inside Try.
func (p *Platform) FactIs(f *Fact, value int) space.Region {
	out := space.Empty
	for i, l := range f.Levels {
		is := l.boxes(func(c *FactCell) bool { return c.Value == value })
		if len(is) == 0 {
			continue
		}
		others := l.boxes(func(c *FactCell) bool { return c.Value != value })
		here := p.Intersect(p.FactOpen(f, i), p.UnionBoxes(is))
		out = p.Union(out, p.Minus(here, p.UnionBoxes(others)))
	}
	return out
}

// FactDisputes calls f for every two cells that decide a fact somewhere and state
// different values, with where. It runs inside Try.
func (p *Platform) FactDisputes(f *Fact, emit func(a, b *FactCell, where space.Region)) {
	for i, l := range f.Levels {
		open := p.FactOpen(f, i)
		p.Pairs(l.boxes(anyCell), open, func(i, j int) bool {
			a, b := l.Cells[i], l.Cells[j]
			if a.Value != b.Value {
				both, _ := a.Box.Intersect(b.Box)
				emit(a, b, p.Intersect(open, p.Box(both)))
			}
			return true
		})
	}
}

// FactMention gives the traits on which a fact depends: those that its rows name.
func (p *Platform) FactMention(f *Fact) Mention {
	m := p.Mention()
	for _, l := range f.Levels {
		for _, c := range l.Cells {
			m.Box(c.Box)
		}
	}
	return m
}
