package sheets

import (
	"bytes"
	"encoding/binary"
	"math/bits"
	"strconv"

	"ferrule/sheets/cell"
)

// The forms that nearly all cells have, as the bytes of a word, the first one lowest:
//
//	<c r="B7" s="3" t="s"><v>12</v></c>
//	<c r="B7" s="3"><v>2009</v></c>
//	<c r="B7" s="3"/>
//
// with or without s. common reads them a word at a time, which takes two thirds of the
// time that bytes and their branches take; whatever else it meets it leaves to cell.
const (
	wordRef    = '<' | 'c'<<8 | ' '<<16 | 'r'<<24 | '='<<32 | '"'<<40
	maskRef    = 1<<48 - 1
	wordStyle  = '"' | ' '<<8 | 's'<<16 | '='<<24 | '"'<<32
	maskStyle  = 1<<40 - 1
	wordShared = '"' | ' '<<8 | 't'<<16 | '='<<24 | '"'<<32 | 's'<<40 | '"'<<48 | '>'<<56
	wordOpen   = '"' | '>'<<8 | '<'<<16 | 'v'<<24 | '>'<<32
	maskOpen   = 1<<40 - 1
	wordEmpty  = '"' | '/'<<8 | '>'<<16
	maskEmpty  = 1<<24 - 1
	wordValue  = '<' | 'v'<<8 | '>'<<16
	maskValue  = 1<<24 - 1
	wordEnd    = '<' | '/'<<8 | 'v'<<16 | '>'<<24 | '<'<<32 | '/'<<40 | 'c'<<48 | '>'<<56
)

// word gives eight bytes; there are always as many, since blocks are padded.
func word(data []byte, i int) uint64 { return binary.LittleEndian.Uint64(data[i : i+8]) }

// piece is up to eight bytes. All data goes on with the empty one.
type piece struct {
	word, mask uint64
	size       int
}

func pieceAt(data []byte, i, size int) piece {
	mask := ^uint64(0) >> (64 - 8*size)
	return piece{word(data, i) & mask, mask, size}
}

// at tells whether data goes on with p.
func (p *piece) at(data []byte, i int) bool { return word(data, i)&p.mask == p.word }

// nameOf is the end of the names of a row's cells with the quote after it.
func nameOf(number int) piece {
	var b [16]byte
	return pieceAt(b[:], 0, len(append(strconv.AppendInt(b[:0], int64(number), 10), '"'))) // at most eight
}

// nameAt is nameOf for a number that stands at data[from:end] with a quote after it; the
// empty piece where it is not written as names of cells have it.
func nameAt(data []byte, from, end int) piece {
	size := end + 1 - from
	if size > 8 || data[from] == '0' {
		return piece{}
	}
	return pieceAt(data, from, size)
}

// form is what a cell of a common form holds.
type form uint8

const (
	unknownForm form = iota
	shared
	number
	nothing
)

// shape is how a cell was written, but for its row and its value. Most cells of a column
// have one shape, and comparing with it takes less than reading a cell's head.
type shape struct {
	form  form
	head  piece // with the letters of its name
	first piece // behind the name, where more than the last piece is there
	next  piece // behind the first, where more than two are there
	last  piece // up to the value
	back  int   // how far behind the name the last piece begins
	style *style
	stays int // how many other cells it outlasts
}

// patience is how many cells of its column a shape outlasts that are written otherwise, so
// that columns of many shapes cost little.
const patience = 7

// knownShapes is how many columns have their shapes kept, and mostShape the most bytes
// behind the name of a cell whose shape is.
const (
	knownShapes = 64
	mostShape   = 24
)

// pieces fills in the shape of a cell that stands at data[from:end] up to its value. Its
// letters end at letters, and its name with the quote at behind.
func (s *shape) pieces(data []byte, from, letters, behind, end int) {
	size := end - behind
	s.head = pieceAt(data, from, letters-from)
	if size > 8 {
		s.first, s.back = pieceAt(data, behind, 8), size-8
	}
	if size > 16 {
		s.next = pieceAt(data, behind+8, 8)
	}
	s.last = pieceAt(data, behind+s.back, size-s.back)
}

// shaped reads a cell in the column behind the last one that is written as the one above
// it; odd, and nothing done, where it is not.
func (b *block) shaped(i int) int {
	col := int(b.lastCol) + 1
	if col >= knownShapes {
		return odd
	}
	s := &b.shapes[col]
	if s.form == unknownForm || !s.head.at(b.data, i) {
		return odd
	}
	if i += s.head.size; !b.name.at(b.data, i) {
		return odd
	}
	i += b.name.size
	if !s.first.at(b.data, i) || !s.next.at(b.data, i+8) || !s.last.at(b.data, i+s.back) {
		return odd
	}
	return b.valued(i+s.back+s.last.size, col, s.form, s.style)
}

// valued reads what a cell of a form holds, and its end.
func (b *block) valued(i, col int, f form, st *style) int {
	switch f {
	case shared:
		i = b.commonShared(i, col, st)
	case number:
		i = b.commonNumber(i, col, st)
	}
	if i != odd {
		b.lastCol = int32(col)
	}
	return i
}

// common reads a cell of a common form at its "<c" and gives the place after it; odd,
// and nothing done, where it has another form.
func (b *block) common(i int) int {
	data := b.data
	if word(data, i)&maskRef != wordRef {
		return odd
	}
	from := i
	i += 6
	col := 0
	for c := data[i] - 'A'; c < 26 && col <= cell.MaxCol; c = data[i] - 'A' {
		col = col*26 + int(c) + 1
		i++
	}
	if col <= int(b.lastCol) || col > cell.MaxCol || !b.name.at(data, i) {
		return odd
	}
	letters := i
	i += b.name.size - 1
	behind := i + 1
	st := 0
	w := word(data, i)
	if w&maskStyle == wordStyle {
		i += 5
		for d := data[i] - '0'; d <= 9 && st <= maxStyle; d = data[i] - '0' {
			st = st*10 + int(d)
			i++
		}
		w = word(data, i)
	}
	if st >= len(b.book.styles) {
		return odd
	}
	f, look := unknownForm, &b.book.styles[st]
	switch {
	case w == wordShared && word(data, i+8)&maskValue == wordValue:
		f, i = shared, i+11
	case w&maskOpen == wordOpen && !look.format.date:
		f, i = number, i+5
	case w&maskEmpty == wordEmpty:
		f, i = nothing, i+3
	default:
		return odd
	}
	if col < knownShapes && i-behind <= mostShape {
		if s := &b.shapes[col]; s.stays > 0 {
			s.stays--
		} else {
			*s = shape{form: f, style: look, stays: patience}
			s.pieces(data, from, letters, behind, i)
		}
	}
	return b.valued(i, col, f, look)
}

// maxStyle is more than any index of a style.
const maxStyle = 1 << 20

// commonShared reads a shared text's index and the cell's end.
func (b *block) commonShared(i, col int, st *style) int {
	w := word(b.data, i)
	length := shortLength(w)
	n, ok := shortNumber(w, length)
	i += length
	if !ok || word(b.data, i) != wordEnd || n >= b.book.strings.n {
		return odd
	}
	t := b.book.strings.at(n)
	if len(t.text) > maxText {
		return odd
	}
	if t.text != "" {
		c := b.add()
		c.Col, c.Kind, c.Shared, c.Text = int32(col), Text, int32(n)+1, t.text
		c.Struck, c.Partly, c.Look, c.Bold = false, false, st.look, st.bold
		if st.struck || t.struck {
			c.Struck, c.Partly = t.strike(st.struck), t.partly(st.struck)
		}
		c.Number, c.Format, c.Formula = 0, "", ""
	}
	return i + 8
}

// commonNumber reads a number that is not shown as a date, and the cell's end.
func (b *block) commonNumber(i, col int, st *style) int {
	w := word(b.data, i)
	length := shortLength(w)
	n, ok := shortNumber(w, length)
	f, end := float64(n), i+length
	if !ok || b.data[i] == '0' && length > 1 {
		f, end, ok = plainNumber(b.data, i)
	}
	text := b.data[i:max(i, end)]
	if !ok || b.data[end] != '<' {
		if f, end, ok = anyNumber(b.data, i); !ok {
			return odd
		}
		b.scratch = appendDecimal(b.scratch[:0], f)
		text = b.scratch
	}
	if word(b.data, end) != wordEnd {
		return odd
	}
	c := b.add()
	c.Col, c.Kind, c.Shared, c.Text = int32(col), Number, 0, b.texts.add(text)
	c.Struck, c.Partly, c.Look, c.Bold = st.struck, false, st.look, st.bold
	c.Number, c.Format, c.Formula = f, st.format.code, ""
	return end + 8
}

// anyNumber reads any double.
func anyNumber(data []byte, i int) (f float64, end int, ok bool) {
	n := bytes.IndexByte(data[i:i+pad], '<')
	if n <= 0 {
		return 0, 0, false
	}
	f, ok = double(string(data[i : i+n]))
	return f, i + n, ok
}

// add makes room for another cell, which must be written as a whole.
func (b *block) add() *Cell {
	n := len(b.cells)
	if n == cap(b.cells) {
		b.cells = append(b.cells, Cell{})
	} else {
		b.cells = b.cells[:n+1]
	}
	return &b.cells[n]
}

const ones = 0x0101010101010101

// shortLength tells how many bytes of w stand before a "<", 8 where there is none.
func shortLength(w uint64) int {
	x := w ^ '<'*ones
	return bits.TrailingZeros64((x-ones)&^x&(0x80*ones)) / 8
}

// shortNumber reads one to seven digits all at once, the first bytes of w: they are moved
// to the word's end, so that zeros stand before them, and neighbours are put together by
// ones, twos and fours. It is not ok where they are no digits, or none, or eight.
func shortNumber(w uint64, length int) (n int, ok bool) {
	w = w<<(64-8*length) | '0'*ones>>(8*length)
	w -= '0' * ones // bytes below '0' borrow, and are seen as those above '9' are
	if (w|(w+0x76*ones))&(0x80*ones) != 0 || uint(length-1) > 6 {
		return 0, false
	}
	w = (w*10 + w>>8) & 0x00ff00ff00ff00ff
	w = (w*100 + w>>16) & 0x0000ffff0000ffff
	w = (w*10000 + w>>32) & 0xffffffff
	return int(w), true
}
