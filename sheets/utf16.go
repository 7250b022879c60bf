package sheets

import (
	"bufio"
	"encoding/binary"
	"errors"
	"io"
	"unicode/utf16"
	"unicode/utf8"
)

var errUTF16 = errors.New("half a character in UTF-16")

// wide turns UTF-16 into UTF-8, byte by byte, and refuses half characters, which
// the converters of the standard library and x/text replace in silence.
type wide struct {
	from  *bufio.Reader
	order binary.ByteOrder
	ready []byte // UTF-8 not given out yet
	room  [utf8.UTFMax]byte
}

func (w *wide) ReadByte() (byte, error) {
	if len(w.ready) == 0 {
		r, err := w.next()
		if err != nil {
			return 0, err
		}
		w.ready = utf8.AppendRune(w.room[:0], r)
	}
	b := w.ready[0]
	w.ready = w.ready[1:]
	return b, nil
}

func (w *wide) next() (rune, error) {
	a, err := w.unit()
	if err != nil || !utf16.IsSurrogate(a) {
		return a, err
	}
	b, err := w.unit()
	if errors.Is(err, io.EOF) {
		return 0, errUTF16
	}
	if err != nil {
		return 0, err
	}
	r := utf16.DecodeRune(a, b)
	if r == utf8.RuneError {
		return 0, errUTF16
	}
	return r, nil
}

func (w *wide) unit() (rune, error) {
	var b [2]byte
	_, err := io.ReadFull(w.from, b[:])
	if errors.Is(err, io.ErrUnexpectedEOF) {
		err = errUTF16
	}
	return rune(w.order.Uint16(b[:])), err
}
