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
func word(data []byte, i int) uint64 { return binary.LittleEndian.Uint64(data[i:]) }

// rowName is the end of the names of a row's cells with the quote after it, as a word
// and the mask of its bytes.
type rowName struct{ word, mask uint64 }

func nameOf(number int) rowName {
	var b [16]byte
	n := len(append(strconv.AppendInt(b[:0], int64(number), 10), '"')) // at most eight
	return rowName{binary.LittleEndian.Uint64(b[:]), ^uint64(0) >> (64 - 8*n)}
}

// common reads a cell of a common form at its "<c" and gives the place after it; odd,
// and nothing done, where it has another form.
func (b *block) common(i int) int {
	data := b.data
	if word(data, i)&maskRef != wordRef {
		return odd
	}
	i += 6
	col := 0
	for c := data[i] - 'A'; c < 26 && col <= cell.MaxCol; c = data[i] - 'A' {
		col = col*26 + int(c) + 1
		i++
	}
	if col <= int(b.lastCol) || col > cell.MaxCol || word(data, i)&b.name.mask != b.name.word {
		return odd
	}
	i += bits.Len64(b.name.mask)/8 - 1
	st := 0
	w := word(data, i)
	if w&maskStyle == wordStyle {
		i += 5
		for d := data[i] - '0'; d <= 9 && st <= maxStyle; d = data[i] - '0' {
			st = st*10 + int(d)
			i++
		}
		if data[i-1] == '"' {
			return odd
		}
		w = word(data, i)
	}
	if st >= len(b.book.styles) {
		return odd
	}
	switch {
	case w == wordShared && word(data, i+8)&maskValue == wordValue:
		i = b.commonShared(i+11, col, &b.book.styles[st])
	case w&maskOpen == wordOpen:
		i = b.commonNumber(i+5, col, &b.book.styles[st])
	case w&maskEmpty == wordEmpty:
		i += 3
	default:
		return odd
	}
	if i != odd {
		b.lastCol = int32(col)
	}
	return i
}

// maxStyle is more than any index of a style.
const maxStyle = 1 << 20

// commonShared reads a shared text's index and the cell's end.
func (b *block) commonShared(i, col int, st *style) int {
	n, length := shortNumber(word(b.data, i))
	i += length
	if length == 0 || word(b.data, i) != wordEnd || n >= len(b.book.strings) {
		return odd
	}
	w := &b.book.strings[n]
	if len(w.text) > maxText {
		return odd
	}
	if w.text != "" {
		c := b.add()
		c.Col, c.Kind, c.Shared, c.Text = int32(col), Text, int32(n)+1, w.text
		c.Struck, c.Partly = w.strike(st.struck), w.partly(st.struck)
		c.Number, c.Format, c.Formula = 0, "", ""
	}
	return i + 8
}

// commonNumber reads a number and the cell's end.
func (b *block) commonNumber(i, col int, st *style) int {
	n, length := shortNumber(word(b.data, i))
	f, end, ok := float64(n), i+length, length > 0
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
	if word(b.data, end) != wordEnd || st.format.date {
		return odd
	}
	c := b.add()
	c.Col, c.Kind, c.Shared, c.Text = int32(col), Number, 0, b.texts.add(text)
	c.Struck, c.Partly = st.struck, false
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

// shortNumber reads one to seven digits before a "<", all at once: their bytes are
// moved to the word's end, so that zeros stand before them, and neighbours are put
// together by ones, twos and fours. The length is 0 where w begins otherwise.
func shortNumber(w uint64) (n, length int) {
	const ones = 0x0101010101010101
	x := w ^ '<'*ones
	length = bits.TrailingZeros64((x-ones)&^x&(0x80*ones)) / 8 // where the first '<' is
	if length == 0 || length == 8 {
		return 0, 0
	}
	w = w<<(64-8*length) | '0'*ones>>(8*length)
	w -= '0' * ones // bytes below '0' borrow, and are seen as those above '9' are
	if (w|(w+0x76*ones))&(0x80*ones) != 0 {
		return 0, 0
	}
	w = (w*10 + w>>8) & 0x00ff00ff00ff00ff
	w = (w*100 + w>>16) & 0x0000ffff0000ffff
	w = (w*10000 + w>>32) & 0xffffffff
	return int(w), length
}
