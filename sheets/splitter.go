package sheets

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"ferrule/sheets/cell"
)

// Where a splitter stands in a cell.
type within uint8

const (
	atStart within = iota // nothing of the cell has been read
	inBare                // in a cell without quotation marks
	inQuoted
	inClosed // behind a quotation mark that may end the cell
)

// maxWide bounds the text of one row in bytes: it is kept in memory whole.
const maxWide = 32 << 20

// splitter makes rows of a text, which it gets in blocks that may end anywhere.
type splitter struct {
	file    *separated
	sign    byte
	classes *[256]bool // bytes that mean something outside quotation marks
	yield   func(*Row) error

	state  within
	row    Row
	text   []byte // of the row, without quotation marks
	ends   []int  // of the cells in text
	line   int    // at hand
	opened int    // where the last quotation mark that opens a cell stands
	cr     bool   // the byte before was a carriage return
	held   bool   // the row has a byte
}

func classesOf(sign byte) *[256]bool {
	var out [256]bool
	for _, c := range []byte{sign, '"', '\r', '\n'} {
		out[c] = true
	}
	return &out
}

// block takes the next piece of the text.
func (p *splitter) block(b []byte) error {
	for i := 0; i < len(b); {
		n, err := p.step(b[i:])
		if err != nil {
			return err
		}
		i += n
	}
	return nil
}

// step takes some bytes, at least one, and tells how many.
func (p *splitter) step(b []byte) (int, error) {
	if p.cr {
		if p.cr = false; b[0] == '\n' {
			return 1, nil
		}
	}
	switch p.state {
	case inQuoted:
		return p.quoted(b)
	case inClosed:
		return 1, p.closed(b)
	case atStart:
		if p.state, p.held = inBare, p.held || b[0] != '\r' && b[0] != '\n'; b[0] == '"' {
			p.state, p.opened = inQuoted, p.line
			return 1, nil
		}
	}
	return p.bare(b)
}

// bare takes text without quotation marks, or what ends it.
func (p *splitter) bare(b []byte) (int, error) {
	n := 0
	for n < len(b) && !p.classes[b[n]] {
		n++
	}
	if n > 0 {
		return n, p.add(b[:n])
	}
	if b[0] == '"' {
		return 0, p.quoteInside(b)
	}
	return 1, p.ended(b[0])
}

// ended takes the sign behind a cell, or the end of a line.
func (p *splitter) ended(c byte) error {
	if err := p.endCell(); err != nil || c == p.sign {
		return err
	}
	p.cr = c == '\r'
	p.line++
	return p.endRow()
}

// quoted takes text in quotation marks. A line break in it is one line feed, however the file
// writes it.
func (p *splitter) quoted(b []byte) (int, error) {
	switch b[0] {
	case '"':
		p.state = inClosed
		return 1, nil
	case '\r', '\n':
		p.cr = b[0] == '\r'
		p.line++
		return 1, p.add([]byte("\n"))
	}
	n := 1
	for n < len(b) && b[n] != '"' && b[n] != '\r' && b[n] != '\n' {
		n++
	}
	return n, p.add(b[:n])
}

// closed takes what stands behind a quotation mark within quoted text.
func (p *splitter) closed(b []byte) error {
	switch c := b[0]; c {
	case '"':
		p.state = inQuoted
		return p.add(b[:1])
	case p.sign, '\r', '\n':
		return p.ended(c)
	}
	return p.behind(b)
}

// start gives where the text of the cell at hand begins.
func (p *splitter) start() int {
	if len(p.ends) == 0 {
		return 0
	}
	return p.ends[len(p.ends)-1]
}

// add adds to the text of the cell at hand.
func (p *splitter) add(b []byte) error {
	p.text = append(p.text, b...)
	if len(p.text)-p.start() > utf8.UTFMax*maxText {
		return p.long()
	}
	if len(p.text) > maxWide {
		return p.fault("split the row, or see whether a quotation mark is missing above", "line %d: the row holds more than %d MiB of text", p.line, maxWide>>20)
	}
	return nil
}

func (p *splitter) endCell() error {
	if text := p.text[p.start():]; len(text) > maxText && tooLong(string(text)) {
		return p.long()
	}
	if p.ends = append(p.ends, len(p.text)); len(p.ends) > cell.MaxCol {
		return p.file.at(cell.Pos{}, "see whether the cells are separated by another sign", "line %d: the row has cells beyond the last column, XFD", p.line)
	}
	p.state = atStart
	return nil
}

// endRow gives the row out if it holds anything. An empty line is a row of the sheet.
func (p *splitter) endRow() error {
	p.row.Number++
	text := string(p.text)
	p.row.Width, p.row.Cells = int32(len(p.ends)), p.row.Cells[:0]
	from := 0
	for i, to := range p.ends {
		if to > from {
			p.row.Cells = append(p.row.Cells, Cell{Col: int32(i + 1), Value: Value{Kind: Text, Text: text[from:to]}})
		}
		from = to
	}
	p.text, p.ends, p.held = p.text[:0], p.ends[:0], false
	if len(p.row.Cells) == 0 {
		return nil
	}
	if p.row.Number > cell.MaxRow {
		return p.file.at(cell.Pos{}, "split it into several files", "it has rows beyond the last one of a sheet, %d", cell.MaxRow)
	}
	return p.yield(&p.row)
}

// end ends the text, whose last line need not end in a line break.
func (p *splitter) end() error {
	switch {
	case p.state == inQuoted:
		return p.unclosed()
	case !p.held:
		return nil
	}
	if err := p.endCell(); err != nil {
		return err
	}
	return p.endRow()
}

// fault is about the cell at hand.
func (p *splitter) fault(todo, format string, args ...any) error {
	return p.file.at(cell.Pos{Row: min(p.row.Number+1, cell.MaxRow), Col: min(int32(len(p.ends)+1), cell.MaxCol)}, todo, format, args...)
}

func (p *splitter) long() error {
	return p.fault("see whether a quotation mark is missing above", "line %d: the cell holds more than the %d characters that a cell can hold", p.line, maxText)
}

// quoteInside refuses a quotation mark within a cell that does not begin with one.
func (p *splitter) quoteInside(b []byte) error {
	rest := b
	if i := bytes.IndexAny(rest, string([]byte{p.sign, '\r', '\n'})); i >= 0 {
		rest = rest[:i]
	}
	text := string(p.text[p.start():]) + string(rest)
	if strings.HasPrefix(text, `="`) && strings.HasSuffix(text, `"`) && len(text) > 3 {
		return p.fault("write "+brief(text[2:len(text)-1])+" alone: here a text stays as it is written, with its zeros",
			"line %d: the cell is a formula that keeps a spreadsheet program from changing a text, %s", p.line, text)
	}
	todo := "put the cell into quotation marks and double those inside"
	if len(text) <= mostSaid {
		todo += `: "` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return p.fault(todo, "line %d: a quotation mark stands within a cell that does not begin with one, %s", p.line, text)
}

// behind refuses text behind the quotation mark that ends a cell.
func (p *splitter) behind(b []byte) error {
	rest := string(b)
	if i := strings.IndexAny(rest, string([]byte{p.sign, '"', '\r', '\n'})); i >= 0 {
		rest = rest[:i]
	}
	return p.fault("double the quotation marks that belong to the text, as \"\", or see whether one is missing above",
		"line %d: behind the quotation mark that ends the cell stands %q; the cell begins in line %d", p.line, brief(rest), p.opened)
}

// unclosed refuses a cell that never ends.
func (p *splitter) unclosed() error {
	return p.fault("close it where the cell ends; where it stands for inches, double it within quotation marks",
		"line %d: the quotation mark that opens the cell is never closed, so that all that follows to the end of the file is in it", p.opened)
}
