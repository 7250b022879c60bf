package layout

import (
	"cmp"
	"slices"

	"ferrule/compiler/intake/table"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

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
