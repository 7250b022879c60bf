// Package patch changes workbooks without writing them anew: a few parts of the package are
// edited at the bytes that change, and all others are copied as they are compressed. So what this
// program knows nothing of (charts, pivots, controls, macros, extensions) stays as it was.
//
// What may change is little: the fill of cells, notes on them, texts in them, what helps to fill in a sheet and to
// print it (lists, panes, filters, widths, page set-up), and one sheet that is appended, and opened first or hidden. Every copy is read back (verify.go) before it is given: all cells
// are as before but ours, all XML elements are there and nothing but ours besides, every relation
// leads somewhere, every part has a type, and elements stand in the order of their schema. A copy of
// which that does not hold is not given.
package patch

import (
	"bytes"
	"fmt"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// Cell is what changes of one cell.
type Cell struct {
	Sheet int // index in sheets.Book.Sheets
	At    cell.Pos
	Fill  string                  // the colour that it gets, as RRGGBB; "": its own
	Note  func(own string) string // given how it was filled, as sheets.Book.FillOf says it; nil: none
	Write *string                 // the text that it gets; nil: it keeps its value
}

// Change is all that changes of a workbook. A cell is named once.
type Change struct {
	Cells []Cell
	Aids  []Aid  // at most one of a sheet
	Sheet *Sheet // to append, nil for none
}

// Copy is a patched workbook.
type Copy struct {
	Bytes  []byte
	Sheet  string // the name that the appended sheet got
	Signed bool   // it was signed, which holds no more
	Parts  int    // of the package
	Same   int    // of them: as they were, byte for byte
	Kept   int64  // bytes of those, as packed
	Packed int64  // bytes of all parts, as packed
}

// Refusal says why no copy is made.
type Refusal struct{ Why string }

// Error gives the reason as it is told.
func (r *Refusal) Error() string { return r.Why }

func refuse(format string, args ...any) error { return &Refusal{fmt.Sprintf(format, args...)} }

// MaxFile bounds a workbook that is copied, in bytes, since it is held in memory; maxPart bounds each
// part of it that is edited.
const (
	MaxFile = 512 << 20
	maxPart = 256 << 20
)

// Apply makes the copy. The error is a *Refusal, or a *sheets.Fault where the workbook cannot be
// read.
func Apply(src []byte, c Change) (*Copy, error) {
	if len(src) > MaxFile {
		return nil, refuse("it is larger than %d MiB", MaxFile>>20)
	}
	book, err := sheets.Read(bytes.NewReader(src), int64(len(src)))
	if err != nil {
		return nil, err
	}
	p := newPatching(book, c)
	if err := p.run(); err != nil {
		return nil, err
	}
	out, err := p.write(src)
	if err != nil {
		return nil, err
	}
	if err := p.verify(out.Bytes); err != nil {
		return nil, err
	}
	return out, nil
}

// patching is one copy on its way.
type patching struct {
	book   *sheets.Book
	change Change
	parts  map[string]*part // that are edited or new, by name
	order  []string         // of parts, as they came
	styles *styler
	signed bool
	sheet  string // the name of the appended sheet
}

func newPatching(book *sheets.Book, c Change) *patching {
	return &patching{book: book, change: c, parts: map[string]*part{}}
}

func (p *patching) run() error {
	if err := p.look(); err != nil {
		return err
	}
	var err error
	if p.styles, err = p.newStyler(); err != nil {
		return err
	}
	for _, a := range p.change.Aids {
		if err := p.aid(a); err != nil {
			return err
		}
	}
	by := make([][]Cell, len(p.book.Sheets()))
	for _, c := range p.change.Cells {
		by[c.Sheet] = append(by[c.Sheet], c)
	}
	for i, cells := range by {
		if len(cells) > 0 {
			if err := p.mark(i, cells); err != nil {
				return err
			}
		}
	}
	if p.change.Sheet != nil {
		if err := p.add(); err != nil {
			return err
		}
	}
	if err := p.repeat(p.change.Aids); err != nil {
		return err
	}
	if err := p.recalculate(); err != nil {
		return err
	}
	return p.styles.finish()
}

// look refuses what is known not to bear a change.
func (p *patching) look() error {
	rels, err := p.book.Relations("")
	if err != nil {
		return err
	}
	for _, r := range rels {
		p.signed = p.signed || r.Kind == "digital-signature/origin" || r.Kind == "origin"
	}
	if _, ok := p.book.Has("_xmlsignatures/origin.sigs"); ok {
		p.signed = true
	}
	if rels, err = p.book.Relations(p.book.WorkbookPart()); err != nil {
		return err
	}
	for _, r := range rels {
		if r.Kind == "revisionHeaders" {
			return refuse("it keeps a log of who changed what (a shared workbook), which a new sheet would contradict; stop sharing it first")
		}
	}
	return nil
}

// mark changes the cells of one sheet.
func (p *patching) mark(sheet int, cells []Cell) error {
	part, err := p.edit(p.book.SheetPart(sheet))
	if err != nil {
		return err
	}
	w, err := newWorksheet(part, p.styles, cells)
	if err != nil {
		return err
	}
	if err := w.run(); err != nil {
		return err
	}
	return p.annotate(sheet, w, cells)
}
