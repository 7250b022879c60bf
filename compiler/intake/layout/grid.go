package layout

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// outs is what a text below across says: a record for each.
type outs struct {
	all []out
	bad string // a mark or sign that is not declared
	by  *Row   // of two marks that contradict each other, one
}

// out is one record that a cell makes.
type out struct {
	text  string // under the cells' column; "" where the part of the row, or none
	own   bool   // text is what the cell itself holds
	named bool   // the part of the row is meant
	signs []*sign
	key   int32
	sign  *sign // the mark that means the part; nil for none
}

// grid gathers the parts that are marked at one place of one vehicle.
type grid struct {
	keys   map[string]int32
	rows   map[[2]int32][]first // by the conditions of a row and of a mark: for each head the first part that is marked
	last   []first              // those that were asked for last
	at     [2]int32             // for which
	dense  int                  // how many places have room
	sparse map[[3]int32]first   // of rows that have none
	more   map[int32][]member   // all that are, by the record of the first, where there are several
	line   []byte
}

// first is the first part that is marked at a place of a vehicle.
type first struct{ record, sign int32 } // counted from 1; 0 for none

// member is a part that is marked at a spot.
type member struct {
	record int32
	sign   *sign
}

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

// outsOf gives what a cell of the grid says. Texts that cells share are read once.
func (g *reading) outsOf(it *item) *outs {
	if n := int(it.Shared); n > 0 {
		if g.byShared == nil {
			g.byShared = make([]*outs, g.r.texts+1)
		}
		if g.byShared[n] == nil {
			g.byShared[n] = g.read(it)
		}
		return g.byShared[n]
	}
	if it.Kind == sheets.Text || len(g.signs) > 0 {
		if o := g.outs[it.Text]; o != nil {
			return o
		}
	}
	o := g.read(it)
	if len(g.outs) < 1<<16 {
		g.outs[it.Text] = o
	}
	return o
}

// read reads what a cell of the grid says.
func (g *reading) read(it *item) *outs {
	v := g.saidBelow(it.Text)
	changed := v != it.Text
	o := &outs{}
	if strings.TrimSpace(v) == "" {
		return o
	}
	pieces, cut := g.cellPieces(v)
	for _, p := range pieces {
		r := g.readPiece(p, o)
		if r == nil {
			continue
		}
		r.own = !changed && !cut && r.text == strings.TrimSpace(it.Text)
		o.all = append(o.all, *r)
	}
	return o
}

// saidBelow gives a text below across in the words that Layouts declares for it.
func (g *reading) saidBelow(t string) string {
	key := word.Fold(t)
	for _, s := range g.says {
		if s.old != "" && s.old == key && (s.what == theCells || s.what == aHead && g.cellsAt >= 0 && word.Fold(g.alias(s.text)) == word.Fold(g.columns[g.cellsAt].Name)) {
			g.met(s.row, true)
			return s.now
		}
	}
	return t
}

// cellPieces splits a cell of the grid into what is a record each.
func (g *reading) cellPieces(t string) (pieces []string, cut bool) {
	if g.signs != nil && g.sign(strings.TrimSpace(t)) != nil {
		return []string{t}, false // a mark is not split, whatever it is made of
	}
	pieces = []string{t}
	for _, s := range g.splits {
		if s.what != theCells || s.with != "each" {
			continue
		}
		var next []string
		for _, p := range pieces {
			next = append(next, cutAt(p, s.sign)...)
		}
		cut = cut || len(next) > len(pieces)
		g.met(s.row, len(next) > len(pieces))
		pieces = next
	}
	return pieces, cut
}

// readPiece reads one record's piece of a cell; nil where it says nothing.
func (g *reading) readPiece(p string, o *outs) *out {
	out := &out{}
	var ors []string
	for _, alt := range g.parts(p, "or") {
		var ands []string
		for _, one := range g.parts(alt, "+") {
			said := g.parse(g.saidBelow(one))
			if said.bad != "" {
				o.bad = said.bad
				return nil
			}
			if t, ok := g.means(said, out, o); ok {
				ands = append(ands, t)
			}
		}
		if len(ands) > 0 {
			ors = append(ors, strings.Join(ands, " + "))
		}
	}
	if len(ors) == 0 && !out.named {
		return nil
	}
	out.text = strings.Join(ors, " or ")
	if out.text == partText {
		out.text = ""
	}
	g.weigh(out)
	return out
}

// partText stands for the number of the row's part in a cell until that is known.
const partText = "\x00"

// parts splits a piece of a cell at the signs that mean or, or +.
func (g *reading) parts(t, with string) []string {
	out := []string{t}
	if g.signs != nil && g.sign(strings.TrimSpace(t)) != nil {
		return out
	}
	for _, s := range g.splits {
		if s.what != theCells || s.with != with {
			continue
		}
		var next []string
		for _, p := range out {
			next = append(next, cutAt(p, s.sign)...)
		}
		g.met(s.row, len(next) > len(out))
		out = next
	}
	return out
}

// means gives what a mark or a value says under the cells' column, and takes note of what its
// signs say beside; false where that is nothing.
func (g *reading) means(said parsed, to *out, o *outs) (string, bool) {
	text, nothing := said.value, false
	for i, s := range said.signs {
		g.met(s.row, true)
		nothing = nothing || s.nothing
		to.signs = append(to.signs, s)
		switch {
		case s.fits == "":
		case text != "" && text != s.fits:
			o.by = s.row
		default:
			text = s.fits
		}
		if i == 0 {
			to.sign = s
		}
	}
	if nothing {
		return "", false
	}
	if text != "" {
		return text, true
	}
	to.named = true
	return partText, true
}

// weigh gives the conditions of a cell a number, equal for cells with the same.
func (g *reading) weigh(o *out) {
	if len(o.signs) == 0 {
		return
	}
	var fields []table.Field
	for _, s := range o.signs {
		fields = append(fields, s.fields...)
	}
	o.key = g.key(fields)
}

// keyOf numbers the conditions of a row, or of a head.
func (g *reading) keyOf(v *variant) int32 {
	fields := v.fields
	for _, s := range v.signs {
		fields = append(slices.Clip(fields), s.fields...)
	}
	return g.key(fields)
}

// key numbers conditions, so that equal ones have one number.
func (g *reading) key(fields []table.Field) int32 {
	if g.partAt < 0 {
		return 0
	}
	b := g.grid.line[:0]
	for i := range fields {
		f := &fields[i]
		if c := &g.columns[f.Column]; g.condition(c.Name) {
			b = append(b, byte(f.Column), byte(f.Column>>8))
			b = append(append(b, f.Text...), 0)
		}
	}
	g.grid.line = b
	if g.grid.keys == nil {
		g.grid.keys = map[string]int32{}
	}
	n, ok := g.grid.keys[string(b)]
	if !ok {
		n = int32(len(g.grid.keys))
		g.grid.keys[string(b)] = n
	}
	return n
}

// condition tells whether a column says which vehicles, or which place of them, a row is about.
func (g *reading) condition(name string) bool {
	c, known := schema.Find(g.kind, name)
	if !known {
		return !strings.HasSuffix(word.Fold(name), " note")
	}
	return c.Holds == schema.HoldsPlatform || c.Holds == schema.HoldsYears || c.Holds == schema.HoldsPosition
}

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

func value(s string) *sheets.Value { v := text(s); return &v }

func (g *reading) columnYears(i int) bool { return g.holdsYears(g.columns[i].Name) }

// place takes note of a part that is marked at a place of a vehicle, of which the next record
// tells. What is told of all of them is looked for when the sheet is read.
func (g *reading) place(row, head int32, o *out) {
	m := first{int32(g.maker.Len()) + 1, g.number32(o.sign)}
	at := [2]int32{row, o.key}
	if g.grid.last == nil || g.grid.at != at {
		if g.grid.rows == nil {
			g.grid.rows, g.grid.more = map[[2]int32][]first{}, map[int32][]member{}
		}
		if g.grid.rows[at] == nil {
			g.grid.rows[at] = g.room()
		}
		g.grid.last, g.grid.at = g.grid.rows[at], at
	}
	if len(g.grid.last) == 0 {
		g.placeSparse([3]int32{row, o.key, head}, m)
		return
	}
	was := &g.grid.last[head]
	if was.record == 0 {
		*was = m
		return
	}
	g.further(*was, m)
}

// room makes a place for each head in a row, as long as that takes no more memory than the cells
// of the sheet allow; else none.
func (g *reading) room() []first {
	if g.grid.dense += int(g.headKeys); g.grid.dense > maxShown+shownRatio*g.r.stored {
		return []first{}
	}
	return make([]first, g.headKeys)
}

// placeSparse is place for rows with few marks below many heads.
func (g *reading) placeSparse(at [3]int32, m first) {
	if g.grid.sparse == nil {
		g.grid.sparse = map[[3]int32]first{}
	}
	if was, taken := g.grid.sparse[at]; taken {
		g.further(was, m)
		return
	}
	g.grid.sparse[at] = m
}

// further takes note of a part where another one is marked.
func (g *reading) further(was, m first) {
	all := g.grid.more[was.record-1]
	if all == nil {
		all = []member{g.member(was)}
	}
	g.grid.more[was.record-1] = append(all, g.member(m))
}

func (g *reading) member(f first) member {
	if f.sign == 0 {
		return member{f.record - 1, nil}
	}
	return member{f.record - 1, g.signs[f.sign-1]}
}

// number32 numbers a mark, counted from 1; 0 for none.
func (g *reading) number32(s *sign) int32 {
	if s == nil {
		return 0
	}
	return s.number
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
