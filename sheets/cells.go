package sheets

import "ferrule/sheets/cell"

// cellHead are the attributes of a cell.
type cellHead struct {
	col   int
	style int
	kind  string
}

// cell scans a cell of any ordinary form after its "<c". What it holds is put together
// and handed to the rules that both ways of reading share.
func (b *block) cell(i int) int {
	head, i := b.cellHead(i)
	if i == odd || head.col <= int(b.lastCol) || head.col > cell.MaxCol || head.style >= len(b.book.styles) {
		return odd
	}
	b.lastCol = int32(head.col)
	switch b.data[i] {
	case '/':
		if b.data[i+1] != '>' {
			return odd
		}
		return i + 2 // nothing but a look
	case '>':
		i++
	default:
		return odd
	}
	return b.content(i, head)
}

// cellHead scans the attributes of a cell.
func (b *block) cellHead(i int) (head cellHead, next int) {
	head.col = int(b.lastCol) + 1
	data := b.data
	seen := uint(0)
	for data[i] == ' ' {
		bit := uint(0)
		switch {
		case data[i+1] == '/':
			return head, i + 1
		case data[i+2] == '=' && data[i+3] == '"':
			switch data[i+1] {
			case 'r':
				bit = 1 << 0
				head.col, i = b.reference(i + 4)
			case 's':
				bit = 1 << 1
				head.style, i = digits(data, i+4)
			case 't':
				bit = 1 << 2
				head.kind, i = cellKind(data, i+4)
			}
			if bit == 0 || i == odd || data[i] != '"' {
				return head, odd
			}
			i++
		default:
			var name []byte
			name, _, i = attribute(data, i+1)
			if i == odd {
				return head, odd
			}
			switch string(name) {
			case "cm":
				bit = 1 << 3
			case "vm":
				bit = 1 << 4
			case "ph":
				bit = 1 << 5
			}
		}
		if bit == 0 || seen&bit != 0 {
			return head, odd
		}
		seen |= bit
	}
	return head, i
}

// reference reads a cell's name, which must be in the row, and gives its column.
func (b *block) reference(i int) (col, next int) {
	data := b.data
	from := i
	for c := data[i] - 'A'; c < 26; c = data[i] - 'A' {
		col = col*26 + int(c) + 1
		i++
	}
	if i == from || i-from > 3 || data[i] == '0' {
		return 0, odd
	}
	row, next := digits(data, i)
	if row != b.number {
		return 0, odd
	}
	return col, next
}

// cellKind reads the value of t up to its quote.
func cellKind(data []byte, i int) (kind string, next int) {
	switch {
	case data[i+1] == '"':
		switch data[i] {
		case 's':
			return "s", i + 1
		case 'n':
			return "n", i + 1
		case 'b':
			return "b", i + 1
		case 'e':
			return "e", i + 1
		case 'd':
			return "d", i + 1
		}
	case begins(data, i, `str"`):
		return "str", i + 3
	case begins(data, i, `inlineStr"`):
		return "inlineStr", i + 9
	}
	return "", odd
}

// content scans what a cell holds, of whatever type, and its end.
func (b *block) content(i int, head cellHead) int {
	raw := rawCell{kind: head.kind}
	for {
		i = skipSpace(b.data, i)
		ok := false
		switch {
		case begins(b.data, i, "</c>"):
			if !b.finish(head, &raw) {
				return odd
			}
			return i + len("</c>")
		case begins(b.data, i, "<v") && !raw.hasValue:
			raw.hasValue = true
			raw.value, i, ok = b.element(i+len("<v"), "</v>", nil)
		case begins(b.data, i, "<f") && !raw.hasFormula:
			raw.hasFormula = true
			raw.formula, i, ok = b.element(i+len("<f"), "</f>", &raw.formulaKind)
		case begins(b.data, i, "<is><t") && !raw.hasInline:
			raw.hasInline = true
			raw.inline, i, ok = b.inline(i + len("<is><t"))
		}
		if !ok {
			return odd
		}
	}
}

// finish takes a cell that holds something out of the common.
func (b *block) finish(head cellHead, raw *rawCell) bool {
	pos := cell.Pos{Row: int32(b.number), Col: int32(head.col)}
	v, err := b.value(pos, b.book.styles[head.style], raw)
	if err != nil {
		return false
	}
	if holds(&v) {
		b.cells = append(b.cells, Cell{pos.Col, b.book.styles[head.style].bold, v})
	}
	return true
}

// element scans an element with nothing but text, after its name. kind takes its
// attribute t; elements without a kind have no attributes but the one for white space.
func (b *block) element(i int, end string, kind *string) (text string, next int, ok bool) {
	i, ok = b.elementHead(i, kind)
	switch {
	case !ok:
		return "", odd, false
	case b.data[i] == '/':
		return "", i + 2, true
	}
	got, i := b.text(i + 1)
	if i == odd || !begins(b.data, i, end) {
		return "", odd, false
	}
	return b.texts.add(got), i + len(end), true
}

// elementHead scans attributes up to ">" or "/>".
func (b *block) elementHead(i int, kind *string) (next int, ok bool) {
	seen := uint(0)
	for b.data[i] == ' ' && b.data[i+1] != '/' {
		name, value, next := attribute(b.data, i+1)
		bit := elementAttribute(name)
		if next == odd || bit == 0 || seen&bit != 0 || kind == nil && bit != 1 {
			return odd, false
		}
		seen |= bit
		i = next
		if bit == 2 {
			*kind = b.texts.add(value)
		}
	}
	if b.data[i] == ' ' {
		i++
	}
	return i, b.data[i] == '>' || begins(b.data, i, "/>")
}

// elementAttribute gives each known attribute of values, texts and formulas a bit.
func elementAttribute(name []byte) uint {
	for i, known := range [...]string{"xml:space", "t", "ref", "si", "ca", "aca", "dt2D", "dtr", "del1", "del2", "r1", "r2", "bx"} {
		if string(name) == known {
			return 1 << i
		}
	}
	return 0
}

// inline scans an inline text without runs after its "<is><t".
func (b *block) inline(i int) (w words, next int, ok bool) {
	text, i, ok := b.element(i, "</t>", nil)
	if !ok || !begins(b.data, i, "</is>") {
		return words{}, odd, false
	}
	return plainWords(text), i + len("</is>"), true
}
