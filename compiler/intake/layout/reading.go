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

// reading is one table of a sheet as it is read.
type reading struct {
	*piece
	r      *reader
	sheet  *cell.Sheet // of this table alone, as other tables have theirs
	heads  []*head
	groups []openGroup
	ready  bool
	ended  bool // until was met
	dead   bool // it cannot be read, as was told

	columns []table.Column
	by      []cell.Place
	index   map[string]int // of columns, by folded name
	cellsAt int            // the column of the cells below across; -1 for none
	partAt  int            // the column of parts that marks mean; -1 for none

	use    []use // by column of the sheet
	rowed  []*column
	fixed  []*column // that hold one value for all rows
	cols   []*crossing
	signs  []*sign
	notes  int // the column of notes; -1 for none
	secs   []*current
	flips  []*flip // rows that are columns
	labels *column

	maker       *table.Maker
	headNumbers map[int32]int32 // by key
	headKeys    int32           // how many numbers heads have by their conditions
	own         []table.Field   // of the cell at hand, used again for each
	outs        map[string]*outs
	byShared    []*outs
	grid        grid
	faulty      map[string]*table.Fault
	order       []string           // of faulty
	telling     int                // cells that they name
	row32       int32              // the row at hand
	numbers     map[int32]cell.Pos // where the part stands that marks of a row mean; zero: in their heads
}

// use says what a column of the sheet is for.
type use struct {
	rowed []*column
	cross *crossing
	skip  bool
}

// column is what a row is of Layouts is about, or a part of it.
type column struct {
	h        *holding
	row      *Row
	by       cell.Place
	col      int32 // of the sheet
	level    []int // columns of the table; the part of the row is partOf
	years    []bool
	says     []*say
	splits   []*split
	down     *named
	last     *held // what stands above, where a blank is as above
	blank    *say
	constant [][]table.Field // of what holds for all rows
}

// held is a value that is kept for further rows.
type held struct {
	sheets.Value
	at cell.Pos
}

// partOf stands for the part that a mark means in place of a column.
const partOf = -1

// zone is where a row stands in a table.
type zone uint8

const (
	outside zone = iota
	inHeader
	inBody
)

func newReading(r *reader, p *piece) *reading {
	own := *r.sheet
	g := &reading{piece: p, r: r, sheet: &own, cellsAt: -1, partAt: -1, notes: -1, index: map[string]int{}, outs: map[string]*outs{}, faulty: map[string]*table.Fault{}}
	g.dead = p.kind == ""
	return g
}

// row takes a row, and says which of its cells are claimed.
func (g *reading) row(number int32, level []level8) zone {
	e := &g.extent
	switch {
	case g.ended || number < e.header.From:
		return outside
	case e.header.From > 0 && number <= e.header.To:
		g.headRow(number)
		return inHeader
	case e.rows.From > 0 && !e.rows.holds(number):
		return outside
	}
	g.prepare()
	if e.until != "" && begins(g.r.first(), e.until) {
		g.ended = true
		all(level)
		return inBody
	}
	g.row32 = number
	switch {
	case g.dead:
		all(level)
	case g.section(level):
	case len(g.flips) > 0 || g.labels != nil:
		g.flipRow(level)
	case len(g.cols) > 0:
		g.gridRow(level)
	default:
		g.listRow(level)
	}
	return inBody
}

func all(level []level8) {
	for i := range level {
		level[i] = claimed
	}
}

// section takes a row that is a heading of those below it.
func (g *reading) section(level []level8) bool {
	if len(g.secs) == 0 || !g.r.lone() {
		return false
	}
	it := &g.r.items[0]
	for _, look := range []string{"merged", "bold", ""} {
		for _, s := range g.secs {
			if s.look != look || look == "merged" && !it.wide || look == "bold" && !it.bold {
				continue
			}
			g.r.met[s.section.row] = true
			s.set(g, it)
			all(level)
			return true
		}
	}
	return false
}

// current is a section with what its last heading says.
type current struct {
	*section
	*column
	fields [][]table.Field
}

func (s *current) set(g *reading, it *item) {
	s.fields = g.values(s.column, &held{*it.Value, it.at})
}

// listRow takes a row of a table without heads across.
func (g *reading) listRow(level []level8) {
	filled := g.claim(level, claimed)
	if !filled {
		return
	}
	variants, at := g.variants()
	if !g.r.make(len(variants), at) {
		return
	}
	for i := range variants {
		v := &variants[i]
		if len(v.fields) > 0 {
			g.emit(v.fields, nil, nil, nil)
		}
	}
}

// claim says which cells of the row are used; it tells whether any is that holds a value.
func (g *reading) claim(level []level8, as level8) (filled bool) {
	for i := range g.r.items {
		it := &g.r.items[i]
		if int(it.col) >= len(g.use) {
			continue
		}
		switch u := &g.use[it.col]; {
		case len(u.rowed) > 0:
			level[i], filled = max(level[i], as), true
		case u.skip:
			level[i] = claimed
		}
	}
	return filled
}

// variant is one way in which the values of a row go together.
type variant struct {
	fields []table.Field
	part   *table.Field
	signs  []*sign
	key    int32
}

// variants gives the rows that the cells of one row make: one, unless cells are split into
// rows of their own.
func (g *reading) variants() ([]variant, cell.Pos) {
	out := []variant{{}}
	at := g.r.items[0].at
	for _, c := range g.rowed {
		v := g.below(c)
		if v == nil {
			continue
		}
		rest, signs := g.strip(v)
		for i := range out {
			out[i].signs = append(out[i].signs, signs...)
		}
		values := g.values(c, rest)
		if len(values) > 1 {
			at = v.at
		}
		out = g.times(out, values, c)
	}
	for _, s := range g.secs {
		if s.fields != nil {
			out = g.times(out, s.fields, s.column)
		}
	}
	for _, c := range g.fixed {
		out = g.times(out, c.constant, c)
	}
	for i := range out {
		slices.SortStableFunc(out[i].fields, func(a, b table.Field) int { return int(a.Column - b.Column) })
	}
	return out, at
}

// times gives each variant with each of the values.
func (g *reading) times(all []variant, values [][]table.Field, c *column) []variant {
	if len(values) == 0 {
		return all
	}
	if len(all)*len(values) > maxEach {
		values = values[:maxEach/len(all)+1]
		g.r.make(maxEach+1, g.r.at())
	}
	if len(values) == 1 {
		for i := range all {
			all[i].add(values[0])
		}
		return all
	}
	var out []variant
	for _, v := range all {
		for _, fields := range values {
			w := variant{fields: slices.Clone(v.fields), part: v.part, signs: slices.Clone(v.signs)}
			w.add(fields)
			out = append(out, w)
		}
	}
	return out
}

func (v *variant) add(fields []table.Field) {
	for i := range fields {
		if f := fields[i]; f.Column == partOf {
			v.part = &f
		} else {
			v.fields = append(v.fields, f)
		}
	}
}

// below gives what the row at hand says in a column: its cell, what stands above where a blank is
// as above, or what a blank means; nil for nothing.
func (g *reading) below(c *column) *held {
	for i := range g.r.items {
		if it := &g.r.items[i]; it.col == c.col {
			v := &held{*it.Value, it.at}
			if c.down != nil {
				c.last = v
			}
			return v
		}
	}
	switch {
	case c.down != nil && c.last != nil:
		g.r.met[c.down.row] = true
		return c.last
	case c.blank != nil:
		g.r.met[c.blank.row] = true
		return &held{text(c.blank.now), cell.Pos{Row: g.row32, Col: c.col}}
	}
	return nil
}

func text(s string) sheets.Value { return sheets.Value{Kind: sheets.Text, Text: s} }

// values gives the fields that a value makes, one set for each row that it makes.
func (g *reading) values(c *column, v *held) [][]table.Field {
	var out [][]table.Field
	for _, w := range g.pieces(c, v) {
		if fields := g.fields(c, w); len(fields) > 0 {
			out = append(out, fields)
		}
	}
	return out
}

// pieces gives the values that a cell holds, in other words where some are declared.
func (g *reading) pieces(c *column, v *held) []*held {
	v = g.reworded(c, v)
	if len(c.splits) == 0 || v.Kind != sheets.Text && v.Kind != sheets.Number {
		return []*held{v}
	}
	texts, joined := []string{v.Text}, false
	for _, s := range c.splits {
		if s.with != "each" {
			continue
		}
		var next []string
		for _, t := range texts {
			next = append(next, cutAt(t, s.sign)...)
		}
		joined = joined || len(next) > len(texts)
		texts = next
		g.met(s.row, len(next) > 1)
	}
	out := make([]*held, len(texts))
	for i, t := range texts {
		to := g.rejoined(c, t)
		if !joined && to == v.Text {
			out[i] = v
			continue
		}
		out[i] = g.reworded(c, &held{text(to), v.at})
	}
	return out
}

func (g *reading) met(r *Row, yes bool) {
	if yes {
		g.r.Plan.met[r] = true
	}
}

// rejoined writes a list of values with or, or with +, between them.
func (g *reading) rejoined(c *column, t string) string {
	return g.joinedBy(c, t, "or", func(t string) string {
		return g.joinedBy(c, t, "+", func(t string) string { return t })
	})
}

func (g *reading) joinedBy(c *column, t, with string, each func(string) string) string {
	texts, cut := []string{t}, false
	for _, s := range c.splits {
		if s.with != with {
			continue
		}
		var next []string
		for _, u := range texts {
			next = append(next, cutAt(u, s.sign)...)
		}
		cut = cut || len(next) > len(texts)
		g.met(s.row, len(next) > len(texts))
		texts = next
	}
	for i, u := range texts {
		w := each(u)
		if cut {
			w = g.reworded(c, &held{text(w), cell.Pos{}}).Text
		}
		texts[i] = w
	}
	return strings.Join(texts, " "+with+" ")
}

// cutAt splits a text at a sign; what is blank between two is left out. A sign of letters stands
// between spaces.
func cutAt(t, sign string) []string {
	var out []string
	if isAlnum(rune(sign[0])) && sign[0] < 0x80 {
		t, sign = " "+strings.Join(strings.Fields(t), " ")+" ", " "+sign+" "
		for {
			i := strings.Index(strings.ToLower(t), strings.ToLower(sign))
			if i < 0 {
				break
			}
			out = appendFilled(out, t[:i])
			t = " " + t[i+len(sign):]
		}
		return appendFilled(out, t)
	}
	for _, p := range strings.Split(t, sign) {
		out = appendFilled(out, p)
	}
	if len(out) == 0 {
		return []string{t} // signs alone are told as what they are
	}
	return out
}

func appendFilled(to []string, t string) []string {
	if t = strings.TrimSpace(t); t != "" {
		to = append(to, t)
	}
	return to
}

// reworded gives a value in the words that Layouts declares for it.
func (g *reading) reworded(c *column, v *held) *held {
	if len(c.says) == 0 {
		return v
	}
	key := word.Fold(v.Text)
	for _, s := range c.says {
		if s.old != "" && s.old == key {
			g.met(s.row, true)
			return &held{text(s.now), v.at}
		}
	}
	return v
}

// fields makes the fields of one value: that of its column, or also of the years behind it.
func (g *reading) fields(c *column, v *held) []table.Field {
	if strings.TrimSpace(v.Text) == "" && v.Kind == sheets.Text {
		return nil
	}
	if len(c.level) == 2 {
		return g.cut(c, v)
	}
	if c.years[0] {
		return []table.Field{g.yearsField(c, c.level[0], v)}
	}
	return []table.Field{g.field(c.level[0], v)}
}

// cut makes the two fields of a name with years behind it.
func (g *reading) cut(c *column, v *held) []table.Field {
	name, said := g.years.cut(v.Text)
	if v.Kind != sheets.Text {
		return []table.Field{g.field(c.level[0], v)}
	}
	var out []table.Field
	if name == strings.TrimSpace(v.Text) {
		return append(out, g.field(c.level[0], v))
	}
	out = append(out, g.field(c.level[0], &held{g.worded(c.level[0], name), v.at}))
	f := g.field(c.level[1], &held{text(said.text), v.at})
	if said.short {
		g.short(v.Text, v.at, c.row)
		f.Broken = true
	}
	return append(out, f)
}

// worded gives what is left of a name without its years in the words declared for its column.
func (g *reading) worded(column int, name string) sheets.Value {
	if column == partOf {
		return text(name)
	}
	for _, s := range g.says {
		if s.old == word.Fold(name) && word.Fold(s.text) == word.Fold(g.columns[column].Name) {
			g.met(s.row, true)
			return text(s.now)
		}
	}
	return text(name)
}

// yearsField makes a field of years as old sheets write them.
func (g *reading) yearsField(c *column, column int, v *held) table.Field {
	if v.Kind != sheets.Text && v.Kind != sheets.Number {
		return g.field(column, v)
	}
	said, ok := g.years.spell(v.Text)
	if !ok || said.text == strings.TrimSpace(v.Text) {
		return g.field(column, v)
	}
	f := g.field(column, &held{text(said.text), v.at})
	if said.short {
		g.short(v.Text, v.at, c.row)
		f.Broken = true
	}
	return f
}

// short tells of years of two digits where nobody says of which century.
func (g *reading) short(said string, at cell.Pos, by *Row) {
	g.fault("century", at, by.AsAt, table.Unread,
		fmt.Sprintf("%s has years of two digits, and no row of Layouts says what they mean", word.Quote(table.Short(said))),
		"write a row say with Years under Where and century = 1950 under As, if 50 means 1950 and 49 means 2049")
}

// field makes a field under a column of the table.
func (g *reading) field(column int, v *held) table.Field {
	if column == partOf {
		f := g.maker.Field(g.cellsAt, &v.Value, v.at)
		f.Column = partOf
		return f
	}
	return g.maker.Field(column, &v.Value, v.at)
}

// What faults of one table name: so many cells in all of its faults together, of what nobody
// claims, and so many faults one by one.
const (
	mostCells  = 2000
	manyCells  = 100
	mostFaults = 500
)

// fault tells something of a cell; cells of which the same is wrong are told together. key is
// equal for these. It gives whether the cell is named.
func (g *reading) fault(key string, at cell.Pos, by cell.Place, what table.What, message, fix string) bool {
	f := g.faulty[key]
	if f == nil && len(g.order) >= mostFaults {
		key = fmt.Sprint("others ", what)
		f = g.faulty[key]
	}
	if f == nil {
		f = &table.Fault{What: what, Message: message, Fix: fix, Cells: []cell.Place{{Sheet: g.sheet, Pos: at}, by}, Notes: []string{"", "the row of Layouts that reads it"}}
		g.faulty[key] = f
		g.order = append(g.order, key)
		return true
	}
	f.Count++
	if g.telling >= mostCells {
		return false
	}
	g.telling++
	f.Cells, f.Notes = append(f.Cells, cell.Place{Sheet: g.sheet, Pos: at}), append(f.Notes, "")
	return true
}

// end gives the table; nil where it cannot be read.
func (g *reading) end() *table.Table {
	g.prepare()
	g.unmet()
	if g.dead {
		return nil
	}
	g.flipped()
	g.maker.Gather()
	g.joinedParts()
	for _, key := range g.order {
		f := g.faulty[key]
		if f.Count > 0 {
			f.Constant = f.Message
			f.Message = fmt.Sprintf("%s; %d cells like it", f.Message, f.Count+1)
		}
		g.r.report(f)
	}
	t := g.maker.End(g.r.report)
	copy(t.Laid.By, g.by)
	t.Laid.Reader, t.Laid.Number = g.readerOf, g.numberOf
	g.grid, g.outs, g.byShared = grid{}, nil, nil
	t.Records = slices.DeleteFunc(t.Records, func(r table.Record) bool { return len(r.Fields) == 0 })
	return t
}

// unmet tells of what the row table names and the sheet does not have.
func (g *reading) unmet() {
	if g.extent.until != "" && !g.ended {
		g.r.report(&table.Fault{What: table.Unmatched, Cells: []cell.Place{g.top.WhereAt, {Sheet: g.r.sheet}},
			Message: fmt.Sprintf("no row of the sheet %q below the heads begins with %s", g.r.sheet.Name, word.Quote(g.extent.until)),
			Fix:     "write the text with which the first row below the table begins, or leave until out"})
	}
}

// known tells whether the kind of the table defines a column.
func (g *reading) known(name string) bool {
	_, ok := schema.Find(g.kind, name)
	return ok
}
