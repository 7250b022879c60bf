package table

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"ferrule/compiler/intake/table/glyph"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// reader goes through one sheet.
type reader struct {
	layout Layout
	sheet  *cell.Sheet
	report func(*Fault)
	begin  func(*Table) func(*Record)
	merges []cell.Range // nil where they are not known yet

	above  []row // up to the header, while that is looked for
	table  *Table
	header int32 // its row
	cols   *columns
	take   func(*Record)
	merged sweep
	stored int           // cells below the header
	over   *sheets.Fault // merged ranges stand for too many cells
	last   int32         // the row that was taken last
	cells  []sheets.Cell
	typed  bool // the workbook is a text file
	long   longRows
	unseen stretches
	looks  *looks // nil where no cell of the workbook is coloured

	faults  map[sharedFault][]*Fault // by what cells of a column share, in their order
	said    map[saying]bool          // what has been said of which cell
	formats map[string]bool          // number formats, and whether they are plain
	shared  []verdict                // of plain, by Value.Shared
	natives map[*unicode.RangeTable]bool
	later   []foreign // judged when all alphabets of the sheet are known
}

// foreign is a text that is at fault unless the sheet is written in its alphabet.
type foreign struct {
	judge judge
	text  string
}

type row struct {
	number int32
	width  int32 // sheets.Row.Width
	cells  []sheets.Cell
}

func newReader(sheet *cell.Sheet, layout Layout, merges []cell.Range, begin func(*Table) func(*Record), report func(*Fault)) *reader {
	return &reader{layout: layout, sheet: sheet, report: report, begin: begin, merges: merges,
		natives: map[*unicode.RangeTable]bool{}}
}

// row takes the next row of the sheet.
func (r *reader) row(in *sheets.Row) {
	if r.table == nil || len(r.merges) > 0 {
		r.cells = filled(r.cells[:0], in.Cells)
	} else {
		r.cells = in.Cells // record passes over blank ones
	}
	if !holds(r.cells) {
		return
	}
	if in.Hidden {
		r.unseen.add(in.Number)
	} else {
		r.unseen.end()
	}
	if r.table != nil {
		r.below(row{in.Number, in.Width, r.cells})
		return
	}
	if in.Number > 10*headerRows {
		r.settle()
		r.below(row{in.Number, in.Width, r.cells})
		return
	}
	r.above = append(r.above, row{in.Number, in.Width, slices.Clone(r.cells)})
	if i := len(r.above) - 1; in.Number <= headerRows && len(r.missing(i)) == 0 {
		r.open(i, true)
	}
}

// filled appends the cells that hold something: white space alone is blank.
func filled(to, cells []sheets.Cell) []sheets.Cell {
	for i := range cells {
		if filledIn(&cells[i].Value) {
			to = append(to, cells[i])
		}
	}
	return to
}

func holds(cells []sheets.Cell) bool {
	for i := range cells {
		if filledIn(&cells[i].Value) {
			return true
		}
	}
	return false
}

func filledIn(v *sheets.Value) bool {
	if v.Kind != sheets.Text || v.Text != "" && v.Text[0] > ' ' && v.Text[0] < 0x7f {
		return true
	}
	return strings.TrimSpace(v.Text) != ""
}

// settle takes the first row for the header, since none of the first twenty is one.
func (r *reader) settle() {
	if len(r.above) == 0 {
		return
	}
	r.headless()
	r.open(0, false)
}

// open begins the table under the header, and goes on with the rows that were held back.
func (r *reader) open(head int, headed bool) {
	r.table = &Table{Kind: r.layout.Kind, Sheet: r.sheet, Headed: headed}
	r.header = r.above[head].number
	r.long.header = r.above[head].width
	r.cols = r.columns(r.table, head)
	for _, row := range r.above {
		r.notice(row.cells)
	}
	r.merged = sweep{coming: r.covers(r.header)}
	r.last = r.header
	r.take = r.begin(r.table)
	for _, row := range r.above[head+1:] {
		r.below(row)
	}
}

// below takes a row under the header.
func (r *reader) below(in row) {
	if r.looks != nil {
		r.looks.row(in.number, in.cells)
	}
	r.between(r.last, in.number)
	r.add(in, r.merged.down(in.number, in.cells))
	r.last = in.number
}

// end finishes the sheet. A sheet that holds nothing is a table all the same.
func (r *reader) end(info sheets.Info, trailer *sheets.Trailer) *Table {
	if r.table == nil {
		r.settle()
	}
	r.hidden(info, trailer)
	if r.table == nil {
		r.empty()
		return &Table{Kind: r.layout.Kind, Sheet: r.sheet}
	}
	r.between(r.last, cell.MaxRow+1)
	r.strays()
	r.longer()
	r.coloured()
	for _, f := range r.later {
		what, instead := f.judge.letters(f.text, func(a *unicode.RangeTable) bool { return r.natives[a] })
		f.judge.lookalike(f.text, what, instead)
	}
	return r.table
}

// notice keeps which alphabets cells are written in that nothing else looks at.
func (r *reader) notice(cells []sheets.Cell) {
	for i := range cells {
		r.noticeText(&cells[i].Value)
	}
}

func (r *reader) noticeText(v *sheets.Value) {
	if v.Kind == sheets.Text {
		glyph.Natives(v.Text, r.natives)
	}
}

func (r *reader) add(in row, active []*cover) {
	r.stored += len(in.cells)
	if r.full() {
		return
	}
	surplus := r.surplus(&in)
	rec := r.record(in, active)
	if surplus > 0 {
		r.long.note(&in, &rec, surplus)
	}
	if len(rec.Fields) > 0 {
		r.take(&rec)
	}
}

// maxShown bounds the cells that have the value of a merged range: so many, and shownRatio
// more for each cell that the sheet holds itself. A few ranges can stand for thousands of
// millions of cells.
const (
	maxShown   = 1 << 20
	shownRatio = 4
)

// full tells whether merged ranges have stood for more cells than may be. The sheet cannot be
// read whole then.
func (r *reader) full() bool {
	if r.over == nil && r.merged.shown > maxShown+shownRatio*r.stored {
		m := r.merged.by
		r.over = &sheets.Fault{Sheet: r.sheet.Name, Pos: m.From,
			Why: fmt.Sprintf("sheet %q, cell %s: the merged cells %s and others like them stand for more than %d cells; unmerge them, or end them where the table ends",
				r.sheet.Name, m.From, m.Range, maxShown)}
	}
	return r.over != nil
}

// whole gives the fault for which the sheet cannot be read whole, or nil.
func (r *reader) whole() error {
	if r.over == nil {
		return nil
	}
	return r.over
}

// maxUnder is how many rows without a cell of their own a stretch of merged ranges may
// make: no sheet that people keep has more, and a merged column would make a million.
const maxUnder = 10_000

// between adds the rows after one and before another that merged ranges alone reach
// over: their cells have the values of the ranges' first cells.
func (r *reader) between(after, before int32) {
	merged := &r.merged
	for n := after + 1; n < before; n++ {
		active := merged.down(n, nil)
		if len(active) == 0 {
			if len(merged.coming) == 0 {
				return
			}
			n = min(merged.coming[0].From.Row, before) - 1
			continue
		}
		if n-after > maxUnder {
			m := slices.MinFunc(active, func(a, b *cover) int { return cell.ComparePos(a.From, b.From) })
			r.report(&Fault{What: Covered,
				Message:  fmt.Sprintf("the merged cells %s reach over more than %d rows that hold nothing of their own; the rows from %d on are not read", m.Range, maxUnder, n),
				Constant: fmt.Sprintf("merged cells reach over more than %d rows that hold nothing of their own", maxUnder),
				Cells:    []cell.Place{r.table.Place(m.From)},
				Fix:      "unmerge them, or end the merge where the table ends"})
			return
		}
		r.add(row{number: n}, active)
	}
}
