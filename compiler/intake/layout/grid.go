package layout

import (
	"fmt"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// gridRow takes a row of a grid.
func (g *reading) gridRow(level []level8) {
	filled := false
	for i := range g.r.items {
		if it := &g.r.items[i]; int(it.col) < len(g.use) && g.use[it.col].cross != nil {
			filled = true
			break
		}
	}
	if !filled {
		g.claim(level, idle)
		for _, c := range g.rowed {
			g.below(c) // further rows may be as this one
		}
		return
	}
	g.claim(level, claimed)
	variants, at := g.variants()
	if !g.r.make(0, at) {
		return
	}
	for i := range variants {
		variants[i].key = g.keyOf(&variants[i])
	}
	g.number(variants)
	for i := range g.r.items {
		it := &g.r.items[i]
		if int(it.col) >= len(g.use) || g.use[it.col].cross == nil {
			continue
		}
		level[i] = claimed
		g.crossCell(g.use[it.col].cross, it, variants)
	}
}

// number remembers where the part stands that the marks of the row mean.
func (g *reading) number(variants []variant) {
	if g.partAt < 0 {
		return
	}
	if g.numbers == nil {
		g.numbers = map[int32]cell.Pos{}
	}
	at := cell.Pos{}
	if p := variants[0].part; p != nil && table.Here(p.At) {
		at = p.At
	}
	g.numbers[g.row32] = at
}

// crossCell makes the records of one cell of the grid.
func (g *reading) crossCell(x *crossing, it *item, variants []variant) {
	o := g.outsOf(it)
	if o.bad != "" {
		if g.undeclared(o.bad, it.said(), it.at, x.h.row) {
			g.unread(x, it, variants)
		}
		return
	}
	if o.by != nil {
		if g.fault("both "+it.said(), it.at, o.by.AsAt, table.Contradicted, fmt.Sprintf("the marks in %s say two things that cannot both be", word.Quote(it.said())), "leave one of them, or say by a row mark what both together mean") {
			g.unread(x, it, variants)
		}
		return
	}
	if !g.r.make(len(variants)*len(x.variants)*len(o.all), it.at) {
		return
	}
	for v := range variants {
		for h := range x.variants {
			for k := range o.all {
				g.emitCell(&variants[v], &x.variants[h], &o.all[k], it, x)
			}
		}
	}
}

// unread makes a record of a cell that cannot be read, so that what is missing because of it is
// known to be.
func (g *reading) unread(x *crossing, it *item, variants []variant) {
	if g.cellsAt < 0 || !g.r.make(1, it.at) || len(x.variants) == 0 {
		return
	}
	f := table.Field{Text: it.Text, At: it.at, Column: int32(g.cellsAt), Kind: sheets.Text, Broken: true}
	g.emit([]table.Field{f}, &variants[0], &x.variants[0], nil)
}
