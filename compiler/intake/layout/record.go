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

// emitCell makes a record of a cell, if nothing else is marked at its place.
func (g *reading) emitCell(v, h *variant, o *out, it *item, x *crossing) {
	part := v.part
	if part == nil {
		part = h.part
	}
	if o.named && part == nil && g.fitting() {
		g.fault("no part", it.at, x.h.row.WhereAt, table.Unclaimed, "a cell is marked, and its row says no part", "fill the part of the row in, or leave the row out by a row skip")
		return
	}
	fields := g.own[:0]
	switch {
	case g.cellsAt < 0:
	case o.named:
		if part == nil {
			break
		}
		f := *part
		f.Column, f.At = int32(g.cellsAt), it.at
		if o.text != "" {
			f = g.maker.Field(g.cellsAt, value(strings.ReplaceAll(o.text, partText, part.Text)), it.at)
		}
		fields = append(fields, f)
	case o.own && (it.Kind != sheets.Number || !g.columnYears(g.cellsAt)):
		fields = append(fields, g.maker.Field(g.cellsAt, it.Value, it.at))
	default:
		fields = append(fields, g.maker.Field(g.cellsAt, value(o.text), it.at))
	}
	if o.named && g.partAt >= 0 && g.fitting() {
		g.place(v.key, h.key, o)
	}
	g.emit(fields, v, h, o)
}

// emit makes a record of what its cell, its row, its head and its marks say.
func (g *reading) emit(own []table.Field, v, h *variant, o *out) {
	n := len(own)
	var row, head []table.Field
	if v != nil {
		row = v.fields
	}
	if h != nil {
		head = h.fields
	}
	var marks []table.Field
	if v != nil && v.signs != nil || h != nil && h.signs != nil || o != nil && o.signs != nil {
		marks = g.beside(v, h, o)
	}
	n += len(row) + len(head) + len(marks)
	fields := append(g.maker.Fields(n)[:0], own...)
	for len(row) > 0 && len(head) > 0 {
		if row[0].Column <= head[0].Column {
			fields, row = append(fields, row[0]), row[1:]
		} else {
			fields, head = append(fields, head[0]), head[1:]
		}
	}
	fields = append(append(append(fields, row...), head...), marks...)
	for i := 1; i < len(fields); i++ {
		if fields[i].Column <= fields[i-1].Column {
			fields = g.ordered(fields)
			break
		}
	}
	g.maker.Add(g.row32, fields)
}

// beside gives what the marks of a record say.
func (g *reading) beside(v, h *variant, o *out) []table.Field {
	var out []table.Field
	var notes []string
	var note *table.Field
	add := func(signs []*sign) {
		for _, s := range signs {
			out = append(out, s.fields...)
			if s.note != nil && !slices.Contains(notes, s.note.Text) {
				notes = append(notes, s.note.Text)
				note = s.note
			}
		}
	}
	if v != nil {
		add(v.signs)
	}
	if h != nil {
		add(h.signs)
	}
	if o != nil {
		add(o.signs)
	}
	if len(notes) > 0 {
		f := *note
		if len(notes) > 1 {
			f.Text, f.Shared = strings.Join(notes, "\n"), 0
		}
		out = append(out, f)
	}
	return out
}

// ordered puts fields in the order of their columns. What two say of one column must be the same.
func (g *reading) ordered(fields []table.Field) []table.Field {
	slices.SortStableFunc(fields, func(a, b table.Field) int { return int(a.Column - b.Column) })
	out := fields[:0]
	for _, f := range fields {
		if n := len(out); n > 0 && out[n-1].Column == f.Column {
			g.doubled(&out[n-1], &f)
			continue
		}
		out = append(out, f)
	}
	return out
}

// doubled takes what a cell says of a column by two ways.
func (g *reading) doubled(a, b *table.Field) {
	c := &g.columns[a.Column]
	if int(a.Column) == g.notes {
		a.Text, a.Shared = a.Text+"\n"+b.Text, 0
		return
	}
	if word.Fold(a.Text) == word.Fold(b.Text) {
		return
	}
	at := a.At
	if !table.Here(at) || at == (cell.Pos{}) {
		at = cell.Pos{Row: g.row32, Col: 1}
	}
	g.fault(fmt.Sprintf("twice %d %s %s", a.Column, a.Text, b.Text), at, g.by[a.Column], table.Contradicted,
		fmt.Sprintf("%s is %s by one row of Layouts and %s by another", c.Name, word.Quote(a.Text), word.Quote(b.Text)),
		"let only one of them say it")
	a.Broken = true
}
