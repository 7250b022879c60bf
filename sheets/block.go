package sheets

import (
	"bytes"

	"ferrule/sheets/cell"
)

// A block is a stretch of a sheet's XML with the rows that were found in it. Scanning
// one needs nothing of the blocks before it, so that several can be scanned at once.
//
// The scanner knows the ordinary way in which programs write rows, byte for byte. It
// has no faults of its own: at the first row that is written otherwise or breaks a
// rule it stops, and the XML parser reads that row again and says what it means. So
// whatever it takes must mean to the parser what it means here.
type block struct {
	typer
	data  []byte // followed by pad zero bytes, which nothing here takes
	size  int    // of data without them
	used  int    // how many bytes of data the rows below were made of
	rows  []span
	cells []Cell // of all rows, one after the other
	texts texts
	ready chan struct{} // told when the block was scanned, where others wait for it

	number  int   // the row being scanned
	name    piece // the end of its cells' names
	lastCol int32 // its last column
	scratch []byte

	// How rows were written before: what followed a row's number up to its ">", whether
	// that hides it, and the cells of each column.
	tail   []byte
	hides  bool
	shapes [knownShapes]shape
}

// span is a row of a block: its cells are those up to the index end.
type span struct {
	number int32
	hidden bool
	end    int
}

// odd is what scanning functions give instead of the next place where they find
// something that is not for them.
const odd = -1

// scan finds the block's rows up to the first odd one. Rows without a number count on
// from the row before them; last is that of the row before the block, 0 where it is not
// known.
func (b *block) scan(last int32) {
	b.rows, b.cells, b.used, b.number = b.rows[:0], b.cells[:0], 0, int(last)
	for {
		i := skipSpace(b.data, b.used)
		if i == b.size {
			b.used = i
			return
		}
		if !begins(b.data, i, "<row") {
			return
		}
		first := len(b.cells)
		if i = b.row(i + len("<row")); i == odd {
			b.cells = b.cells[:first]
			return
		}
		b.used = i
	}
}

// whole tells whether all of the block was taken, and that it was not an empty one.
func (b *block) whole() bool { return b.used == b.size && b.size > 0 }

// lines counts the line breaks in what was taken.
func (b *block) lines() int { return bytes.Count(b.data[:b.used], []byte{'\n'}) }

// row scans a row after its "<row".
func (b *block) row(i int) int {
	head, i := b.head(i)
	if head.number == unnumbered && b.number > 0 {
		head.number = b.number + 1
	}
	if i == odd || head.number <= b.number || head.number > cell.MaxRow {
		return odd
	}
	if head.name.mask == 0 {
		head.name = nameOf(head.number)
	}
	b.number, b.lastCol, b.name = head.number, 0, head.name
	switch b.data[i] {
	case '/':
		if !begins(b.data, i, "/>") {
			return odd
		}
		i += len("/>")
	case '>':
		if i = b.rowCells(i + 1); i == odd {
			return odd
		}
	default:
		return odd
	}
	b.rows = append(b.rows, span{int32(head.number), head.hidden, len(b.cells)})
	return i
}

// head scans a row's attributes. Those of most rows are written as in the row before, but
// for the number, which comes first.
func (b *block) head(i int) (head rowHead, next int) {
	const first = ` r="`
	if !begins(b.data, i, first) {
		return b.rowHead(i)
	}
	from := i + len(first)
	n, end := digits(b.data, from)
	if end == odd {
		return head, odd
	}
	if len(b.tail) > 0 && bytes.HasPrefix(b.data[end:], b.tail) {
		return rowHead{n, nameAt(b.data, from, end), b.hides}, end + len(b.tail) - 1
	}
	const most = 1 << 10 // bytes that are kept
	if head, next = b.rowHead(i); next != odd && b.data[next] == '>' && next-end < most {
		b.tail, b.hides = append(b.tail[:0], b.data[end:next+1]...), head.hidden
	}
	return head, next
}

// rowHead are the attributes of a row that matter.
type rowHead struct {
	number int   // unnumbered where there is none
	name   piece // the zero one where it is not known yet
	hidden bool
}

const unnumbered = -1

// rowHead scans a row's attributes. Only those that are known can be there, each once:
// others may be declarations of namespaces, which change what names mean.
func (b *block) rowHead(i int) (head rowHead, next int) {
	head.number = unnumbered
	seen := uint(0)
	for b.data[i] == ' ' {
		if b.data[i+1] == '/' {
			return head, i + 1
		}
		name, value, next := attribute(b.data, i+1)
		bit := rowAttribute(name)
		if next == odd || bit == 0 || seen&bit != 0 {
			return head, odd
		}
		seen |= bit
		i = next
		switch string(name) {
		case "r":
			n, end := digits(value, 0)
			if end != len(value) {
				return head, odd
			}
			head.number = n
		case "hidden":
			is, ok := truthBytes(value)
			if !ok {
				return head, odd
			}
			head.hidden = is
		}
	}
	return head, i
}

// rowAttribute gives each known attribute of a row a bit of its own.
func rowAttribute(name []byte) uint {
	switch string(name) {
	case "r":
		return 1 << 0
	case "spans":
		return 1 << 1
	case "hidden":
		return 1 << 2
	case "s":
		return 1 << 3
	case "customFormat":
		return 1 << 4
	case "ht":
		return 1 << 5
	case "customHeight":
		return 1 << 6
	case "outlineLevel":
		return 1 << 7
	case "collapsed":
		return 1 << 8
	case "thickTop":
		return 1 << 9
	case "thickBot":
		return 1 << 10
	case "ph":
		return 1 << 11
	case "x14ac:dyDescent":
		return 1 << 12
	}
	return 0
}

// rowCells scans the cells of a row and its end.
func (b *block) rowCells(i int) int {
	for {
		if next := b.shaped(i); next != odd {
			i = next
			continue
		}
		switch {
		case b.data[i] != '<':
			after := skipSpace(b.data, i)
			if after == i {
				return odd
			}
			i = after
		case b.data[i+1] == 'c':
			next := b.common(i)
			if next == odd {
				next = b.cell(i + len("<c"))
			}
			if i = next; i == odd {
				return odd
			}
		case begins(b.data, i, "</row>"):
			return i + len("</row>")
		default:
			return odd
		}
	}
}

// skipSpace goes over white space between tags. Where there is more than any program
// writes it goes over none, since the parser may find it too long.
func skipSpace(data []byte, from int) int {
	const most = 4 << 10
	i := from
	for data[i] == ' ' || data[i] == '\n' || data[i] == '\r' || data[i] == '\t' {
		i++
	}
	if i-from > most {
		return from
	}
	return i
}

// begins tells whether data goes on with s, which is at most pad bytes long.
func begins(data []byte, i int, s string) bool { return string(data[i:i+len(s)]) == s }

// truthBytes reads an xsd:boolean as programs write it.
func truthBytes(v []byte) (is, ok bool) {
	switch string(v) {
	case "1", "true":
		return true, true
	case "0", "false":
		return false, true
	}
	return false, false
}
