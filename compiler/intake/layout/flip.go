package layout

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// flip is a row of the sheet that is a column of the table: what stands in it below each of the
// heads across is said of that head.
type flip struct {
	column *column
	cells  []flipCell
}

type flipCell struct {
	cross *crossing
	held
}

// flipRow keeps a row of a table that lies on its side.
func (g *reading) flipRow(level []level8) {
	label, at, row := g.label(level)
	if row == nil {
		return
	}
	f := &flip{}
	for i := range g.r.items {
		it := &g.r.items[i]
		if int(it.col) >= len(g.use) {
			continue
		}
		switch u := &g.use[it.col]; {
		case u.cross != nil:
			f.cells = append(f.cells, flipCell{u.cross, held{*it.Value, it.at}})
			level[i] = claimed
		case u.skip:
			level[i] = claimed
		}
	}
	name, unit := unitOf(label)
	if row.labels {
		f.column = g.columnOf(row.row, []target{{name, unit}}, at, "")
	} else {
		f.column = g.columnOf(row.row, row.levels[0], at, unit)
	}
	g.about(f.column, label, 0)
	g.flips = append(g.flips, f)
}

// label finds the head of a row: the row of Layouts that is about it, nil for none.
func (g *reading) label(level []level8) (string, cell.Pos, *holding) {
	for i := range g.r.items {
		it := &g.r.items[i]
		said := strings.Join(strings.Fields(it.Text), " ")
		for _, h := range g.is {
			if h.what == aRowText && word.Fold(h.text) == word.Fold(said) {
				level[i] = claimed
				return said, it.at, h
			}
		}
		if g.labels == nil || it.col != g.labels.col {
			continue
		}
		level[i] = claimed
		for _, s := range g.says {
			if s.old == word.Fold(said) && (s.what == theHeads || s.what == aHead && g.isLabels(s.text)) {
				g.met(s.row, true)
				said = s.now
			}
		}
		return said, it.at, g.labels.h
	}
	return "", cell.Pos{}, nil
}

// isLabels tells whether a text is the head of the column of labels.
func (g *reading) isLabels(text string) bool {
	hits := g.called(text)
	return len(hits) == 1 && hits[0].col == g.labels.col
}

// flipped makes the records of a table that lies on its side: one a head.
func (g *reading) flipped() {
	if !g.flipping() || g.dead {
		return
	}
	for _, h := range g.is {
		if h.what == aRowText && !slices.ContainsFunc(g.flips, func(f *flip) bool { return f.column.row == h.row }) {
			g.r.report(&table.Fault{What: table.Unmatched, Cells: []cell.Place{h.row.WhereAt, {Sheet: g.r.sheet}},
				Message: fmt.Sprintf("no row of the sheet %q has the head %s", g.r.sheet.Name, word.Quote(h.text)), Fix: "write the text at the beginning of the row as it stands in the sheet"})
		}
	}
	g.start()
	g.constants()
	g.crossed()
	g.declare()
	by := map[*crossing][]table.Field{}
	for _, f := range g.flips {
		for i := range f.cells {
			c := &f.cells[i]
			for _, fields := range g.values(f.column, g.unmarked(&c.held)) {
				by[c.cross] = append(by[c.cross], fields...)
			}
		}
	}
	for _, x := range g.cols {
		g.row32 = x.head.at.Row
		for i := range x.variants {
			v := &x.variants[i]
			if len(by[x]) == 0 {
				continue
			}
			constant := variant{}
			for _, c := range g.fixed {
				if len(c.constant) > 0 {
					constant.add(c.constant[0])
				}
			}
			if !g.r.make(1, x.head.at) {
				return
			}
			g.emit(g.ordered(slices.Clone(by[x])), &constant, v, nil)
		}
	}
}

// unmarked gives a value of a table that lies on its side; one that a mark says is nothing is
// blank.
func (g *reading) unmarked(v *held) *held {
	if s := g.sign(strings.TrimSpace(v.Text)); s != nil && s.nothing {
		g.met(s.row, true)
		return &held{sheets.Value{Kind: sheets.Text}, v.at}
	}
	return v
}
