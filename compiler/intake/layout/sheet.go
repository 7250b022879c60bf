package layout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// item is a filled cell of a row, or one that a merged range gives its value.
type item struct {
	*sheets.Value
	col  int32
	at   cell.Pos // the first cell of a merged range
	bold bool
	wide bool // merged over several columns
}

// said gives what the cell says, with white space at both ends cut.
func (i *item) said() string { return strings.TrimSpace(i.Text) }

// ahead is what a row needs to know of cells further down.
type ahead struct {
	cells   map[cell.Pos]sheets.Value
	legends map[string]legend // by sign
	merges  []cell.Range
	done    bool
}

// legend is the text under a table that says what a sign means.
type legend struct {
	text string
	at   cell.Pos
}

// reader goes through one sheet by its plan.
type reader struct {
	*Plan
	sheet  *cell.Sheet
	kinds  func(string) table.Layout
	report func(*table.Fault)
	ahead  *ahead
	texts  int
	gs     []*reading
	merged merged
	items  []item
	level  []level8
	watch  *table.Watch
	skips  []*named // of rows and cells, of all pieces
	loose  []bare   // cells outside of tables that nothing claims
	under  []bare   // cells of tables whose columns nothing claims
	heads  []bare   // cells of headers, until it is known whether their columns are claimed
	barren []bare   // cells of rows of which nothing comes
	stored int
	made   int
	over   *sheets.Fault
}

// level8 is how far a cell is claimed.
type level8 uint8

const (
	unclaimed level8 = iota
	idle             // named, and nothing has come of it
	claimed
)

// bare is a cell to be told, or perhaps.
type bare struct {
	at   cell.Pos
	text string
	wide bool
	bold bool
	g    *reading // the table in whose rows it stands
}

// Read reads a sheet by the plan: a table for each row table that could be read. The error is a
// *sheets.Fault: the sheet could not be read whole.
func (p *Plan) Read(book *sheets.Book, index int, sheet *cell.Sheet, kinds func(string) table.Layout, report func(*table.Fault)) ([]*table.Table, error) {
	p.matter = true
	known, err := p.look(book, index)
	if err != nil {
		return nil, err
	}
	for {
		var held []*table.Fault
		r := p.reader(book, sheet, kinds, known, func(f *table.Fault) { held = append(held, f) })
		trailer, err := book.Rows(index, func(in *sheets.Row) error { r.row(in); return r.whole() })
		if err != nil {
			return nil, err
		}
		if !known.done && len(trailer.Merges) > 0 {
			known.merges, known.done = trailer.Merges, true
			continue
		}
		tables := r.end()
		if err := r.whole(); err != nil {
			return nil, err
		}
		if err := r.watch.End(book, index, trailer, r.columns()); err != nil {
			return nil, err
		}
		for _, f := range held {
			report(f)
		}
		return tables, nil
	}
}

func (p *Plan) reader(book *sheets.Book, sheet *cell.Sheet, kinds func(string) table.Layout, known *ahead, report func(*table.Fault)) *reader {
	r := &reader{Plan: p, sheet: sheet, kinds: kinds, report: report, ahead: known, texts: book.SharedTexts(),
		merged: newMerged(known.merges), watch: table.NewWatch(sheet, book.Coloured(), report)}
	for _, piece := range p.pieces {
		for _, s := range piece.skips {
			if s.what == aRowText || s.what == rowNumbers || s.what == aCell {
				r.skips = append(r.skips, s)
			}
		}
		r.gs = append(r.gs, newReading(r, piece))
	}
	return r
}

// look goes through the sheet for what has to be known before its rows are read: cells that rows
// is name, and the texts below tables that marks mean.
func (p *Plan) look(book *sheets.Book, index int) (*ahead, error) {
	a := &ahead{cells: map[cell.Pos]sheets.Value{}, legends: map[string]legend{}}
	wanted, signs := map[cell.Pos]bool{}, map[string]bool{}
	for _, piece := range p.pieces {
		for _, h := range piece.is {
			if h.what == aCell {
				wanted[h.pos] = true
			}
		}
		for _, m := range piece.marks {
			if m.note {
				signs[m.sign] = true
			}
		}
	}
	if len(wanted) == 0 && len(signs) == 0 {
		return a, nil
	}
	trailer, err := book.Rows(index, func(in *sheets.Row) error {
		n, last := 0, 0
		for i := range in.Cells {
			c := &in.Cells[i]
			if !table.Filled(&c.Value) {
				continue
			}
			n, last = n+1, i
			if at := (cell.Pos{Row: in.Number, Col: c.Col}); wanted[at] {
				a.cells[at] = c.Value
			}
		}
		if n != 1 || len(signs) == 0 {
			return nil
		}
		for sign := range signs {
			text, ok := legendOf(in.Cells[last].Text, sign)
			if _, twice := a.legends[sign]; ok && !twice {
				a.legends[sign] = legend{text, cell.Pos{Row: in.Number, Col: in.Cells[last].Col}}
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	a.merges, a.done = trailer.Merges, true
	return a, nil
}

// legendOf gives what a text that begins with a sign says of it. Behind a letter or a digit
// something must part the two.
func legendOf(text, sign string) (string, bool) {
	text = strings.TrimSpace(text)
	for _, s := range []string{sign, "(" + sign + ")", "[" + sign + "]"} {
		rest, ok := strings.CutPrefix(text, s)
		if !ok && len(text) >= len(s) && strings.EqualFold(text[:len(s)], s) {
			rest, ok = text[len(s):], true
		}
		if !ok || rest == "" {
			continue
		}
		cut := strings.TrimLeft(rest, " \t:=.)-–—")
		parted := cut != rest
		if alnum(s) && (!parted || strings.HasPrefix(rest, " ") && letters(sign) && !strings.ContainsAny(strings.TrimLeft(rest, " ")[:1], ":=-–—")) {
			continue
		}
		if cut == "" {
			continue
		}
		return cut, true
	}
	return "", false
}

func alnum(s string) bool {
	last, _ := utf8.DecodeLastRuneInString(s)
	return s != "" && isAlnum(last)
}

func letters(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return r >= '0' && r <= '9' }) < 0
}

func isAlnum(r rune) bool {
	return unicode.IsLetter(r) || r >= '0' && r <= '9'
}

// row takes the next row of the sheet.
func (r *reader) row(in *sheets.Row) {
	r.items = r.merged.row(in, r.items[:0], r)
	r.stored += len(in.Cells)
	if len(r.items) == 0 {
		r.watch.Row(in, false)
		return
	}
	if len(r.level) < len(r.items) {
		r.level = make([]level8, len(r.items)*2)
	}
	level := r.level[:len(r.items)]
	clear(level)
	body, header := (*reading)(nil), false
	if !r.skipped(in.Number, level) && !r.legend(level) {
		for _, g := range r.gs {
			switch g.row(in.Number, level) {
			case inBody:
				body = cmp.Or(body, g)
			case inHeader:
				body, header = cmp.Or(body, g), true
			}
		}
	}
	r.watch.Row(in, body != nil && !header)
	r.account(level, body, header)
}

// account takes note of the cells that nothing has claimed.
func (r *reader) account(level []level8, g *reading, header bool) {
	for i, l := range level {
		if l == claimed || r.items[i].at.Row != r.rowOf(i) || r.items[i].at.Col != r.items[i].col {
			continue
		}
		it := &r.items[i]
		b := bare{at: it.at, text: it.said(), wide: it.wide, bold: it.bold, g: g}
		switch {
		case header:
			r.heads = append(r.heads, b)
		case l == idle:
			r.barren = append(r.barren, b)
		case g != nil:
			r.under = append(r.under, b)
		default:
			r.loose = append(r.loose, b)
		}
	}
}

// rowOf gives the row that is at hand.
func (r *reader) rowOf(int) int32 { return r.merged.number }

// first gives the first filled cell of the row.
func (r *reader) first() string { return r.items[0].said() }

// at gives the place of the row's first filled cell; that of no cell where there is none.
func (r *reader) at() cell.Pos {
	if len(r.items) == 0 {
		return cell.Pos{}
	}
	return r.items[0].at
}

// lone tells whether the row holds one cell alone, also where that is merged.
func (r *reader) lone() bool {
	for i := range r.items {
		if r.items[i].at != r.items[0].at {
			return false
		}
	}
	return true
}

// skipped tells whether a row is left out on purpose; cells that are, are claimed.
func (r *reader) skipped(number int32, level []level8) bool {
	for _, s := range r.skips {
		switch s.what {
		case aCell:
			for i := range level {
				if at := (cell.Pos{Row: number, Col: r.items[i].col}); at == s.pos {
					level[i], r.met[s.row] = claimed, true
				}
			}
			continue
		case rowNumbers:
			if !s.rows.holds(number) {
				continue
			}
		case aRowText:
			if !begins(r.first(), s.text) {
				continue
			}
		}
		r.met[s.row] = true
		for i := range level {
			level[i] = claimed
		}
		return true
	}
	for i := range level {
		if _, wanted := r.ahead.cells[cell.Pos{Row: number, Col: r.items[i].col}]; wanted {
			level[i] = claimed
		}
	}
	return false
}

// begins tells whether a cell says a text, or begins with it and goes on with another word.
func begins(said, text string) bool {
	said, text = word.Fold(said), word.Fold(text)
	rest, ok := strings.CutPrefix(said, text)
	next, _ := utf8.DecodeRuneInString(rest)
	return ok && (rest == "" || !isAlnum(next))
}

// legend tells whether the row is a text that says what a declared sign means.
func (r *reader) legend(level []level8) bool {
	if !r.lone() || len(r.items[0].Text) < 2 {
		return false
	}
	for _, g := range r.gs {
		if r.merged.number <= g.extent.header.To {
			continue
		}
		for _, m := range g.marks {
			if _, ok := legendOf(r.items[0].Text, m.sign); ok {
				for i := range level {
					level[i] = claimed
				}
				return true
			}
		}
	}
	return false
}

// whole gives the fault for which the sheet cannot be read whole, or nil.
func (r *reader) whole() error {
	if r.over == nil {
		return nil
	}
	return r.over
}

// What a layout may make of a sheet: so many records, and more for each cell that the sheet
// holds; and of one cell at most as many.
const (
	maxMade   = 1 << 20
	madeRatio = 16
	maxEach   = 5000
)

// make counts records that are about to be made.
func (r *reader) make(n int, at cell.Pos) bool {
	r.made += n
	if r.over == nil && (n > maxEach || r.made > maxMade+madeRatio*r.stored) {
		r.over = &sheets.Fault{Sheet: r.sheet.Name, Pos: at,
			Why: fmt.Sprintf("sheet %q, cell %s: what the rows of Layouts make of the sheet is more than %d rows, or more than %d of one cell; split fewer cells by each, or read the sheet by fewer rows table",
				r.sheet.Name, at, maxMade, maxEach)}
	}
	return r.over == nil
}

// end finishes the sheet.
func (r *reader) end() []*table.Table {
	var out []*table.Table
	for _, g := range r.gs {
		if t := g.end(); t != nil {
			out = append(out, t)
		}
	}
	r.tell()
	return out
}

// columns names the columns of the sheet, for what is told of them.
func (r *reader) columns() []table.Column {
	named := map[int32]table.Column{}
	for _, g := range r.gs {
		for _, h := range g.heads {
			if _, ok := named[h.col]; !ok {
				named[h.col] = table.Column{Name: h.text, At: h.at}
			}
		}
	}
	var out []table.Column
	for _, c := range named {
		out = append(out, c)
	}
	slices.SortFunc(out, func(a, b table.Column) int { return cmp.Compare(a.At.Col, b.At.Col) })
	return out
}
