package sheets

import (
	"bytes"
	"reflect"
)

// Pace says how Paced reads: the bytes of a block, 0 for leaving all rows to the XML
// parser, and how many goroutines.
type Pace struct{ Block, Workers int }

// Paced reads a sheet and tells how many rows did not need the XML parser.
func (b *Book) Paced(sheet int, p Pace, yield func(*Row) error) (*Trailer, int, error) {
	c := b.content.(*packed)
	return c.read(c.sheets[sheet], pace{workers: p.Workers, block: p.Block}, yield)
}

// ReadSlow is Read without any short way past the XML parser.
func ReadSlow(data []byte) (*Book, error) {
	return read(bytes.NewReader(data), int64(len(data)), false)
}

// SameTexts tells whether the shared texts of two workbooks are the same throughout.
func SameTexts(a, b *Book) bool {
	return reflect.DeepEqual(a.content.(*packed).strings, b.content.(*packed).strings)
}

// PlainNumber and ShortNumber are ways of reading numbers, for comparing.
func PlainNumber(text string) (float64, int, bool) {
	return plainNumber(append([]byte(text), make([]byte, pad)...), 0)
}

func ShortNumber(text string) (n, length int) {
	w := word(append([]byte(text), make([]byte, pad)...), 0)
	length = shortLength(w)
	n, ok := shortNumber(w, length)
	if !ok {
		return 0, 0
	}
	return n, length
}

// Slowly reads a number as the XML parser's way does.
func Slowly(text string) (float64, string, bool) {
	f, ok := double(text)
	return f, string(appendDecimal(nil, f)), ok
}

// FastTexts tells how many shared texts are taken past the XML parser, up to the first that
// is not.
func FastTexts(texts string) int {
	var all stock
	f := fastStrings{all: &all}
	f.one.data, f.one.size = append([]byte(texts), make([]byte, pad)...), len(texts)
	f.scan()
	return all.n
}

// WithoutBook reads a sheet whose scanners have no book, at which they panic.
func (b *Book) WithoutBook(sheet int, p Pace) error {
	c := b.content.(*packed)
	m, err := c.pack.markup(c.sheets[sheet].part, "", maxPart)
	if err != nil {
		return err
	}
	a := &assembler{typer: typer{spot: m.spot}, yield: func(*Row) error { return nil }}
	return scan(m, a, pace{workers: p.Workers, block: p.Block})
}
