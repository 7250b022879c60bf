package decide

import (
	"cmp"
	"math/big"
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
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
	Like   int         // the first fact that the same rows state, itself where there is none
}

// FactLevel holds the cells of one precedence.
type FactLevel struct {
	Cells []*FactCell // in the order of file, sheet and row
}

// factCells gathers the cells of each fact that are about the platform.
func (p *Platform) factCells(rows []*model.FactRow) {
	if len(p.Cat.Facts) == 0 && len(rows) == 0 {
		return
	}
	p.Facts, p.factRows = make([]Fact, len(p.Cat.Facts)), make([]factRow, len(rows))
	n := 0
	for i, r := range rows {
		p.factRows[i] = factRow{r, p.Bounds(&r.When)}
		n += len(r.Cells)
	}
	cells := make([]FactCell, 0, n)
	for i, f := range p.Cat.Facts {
		p.Facts[i].Fact = f
	}
	for _, r := range p.factRows {
		for _, c := range r.Cells {
			cells = append(cells, FactCell{c, r.Box})
			p.Facts[c.Fact.Index].add(&cells[len(cells)-1])
		}
	}
	for i := range p.Facts {
		f := &p.Facts[i]
		slices.SortFunc(f.Levels, func(a, b FactLevel) int { return -cmp.Compare(a.precedence(), b.precedence()) })
		for f.Like = 0; !f.like(&p.Facts[f.Like]); f.Like++ {
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

// like tells whether the same rows state both facts.
func (f *Fact) like(g *Fact) bool {
	return f == g || slices.EqualFunc(f.Levels, g.Levels, func(a, b FactLevel) bool {
		return slices.EqualFunc(a.Cells, b.Cells, func(x, y *FactCell) bool { return x.Row == y.Row })
	})
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

// FactComplete tells whether a fact of which no two cells meet is stated everywhere: then
// its cells hold as many configurations as there are. It is enough to look at the
// traits that its rows name. It runs inside Try.
func (p *Platform) FactComplete(f *Fact, by Mention) bool {
	all, held := p.Project(p.All, by.list()), new(big.Int)
	for _, l := range f.Levels {
		for _, c := range l.Cells {
			held.Add(held, p.CountIn(all, c.Box))
		}
	}
	return held.Cmp(p.Count(all)) == 0
}

// FactIs gives where the deciding cells of a fact state one of its values, or some of
// them do. It runs inside Try.
func (p *Platform) FactIs(f *Fact, value int) space.Region {
	out := space.Empty
	for i, l := range f.Levels {
		if is := l.boxes(func(c *FactCell) bool { return c.Value == value }); len(is) > 0 {
			out = p.Union(out, p.Intersect(p.FactOpen(f, i), p.UnionBoxes(is)))
		}
	}
	return out
}

// fewCells is how many cells are gone through pair by pair: an index of them takes
// longer to make.
const fewCells = 100

// FactsMeet tells whether two cells of a fact decide on one vehicle. It runs inside Try.
func (p *Platform) FactsMeet(f *Fact) bool {
	meet := false
	for i, l := range f.Levels {
		open := p.FactOpen(f, i)
		if len(l.Cells) <= fewCells {
			meet = meet || p.anyMeet(l.Cells, open)
			continue
		}
		p.Pairs(l.boxes(anyCell), open, func(int, int) bool {
			meet = true
			return false
		})
	}
	return meet
}

func (p *Platform) anyMeet(cells []*FactCell, open space.Region) bool {
	for i, a := range cells {
		for _, b := range cells[i+1:] {
			if !a.Box.Meets(b.Box) {
				continue
			}
			if both, ok := a.Box.Intersect(b.Box); ok && p.Meets(open, both) {
				return true
			}
		}
	}
	return false
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
