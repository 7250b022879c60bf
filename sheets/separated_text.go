package sheets

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"unicode/utf8"
)

// How to save a text file so that its letters can be read.
const saveUTF8 = "open it in the program that it comes from and save it as CSV in UTF-8 (or as .xlsx)"

var errEnough = errors.New("enough of a file")

// textBlock is how many bytes of a text file are looked at in one go.
const textBlock = 1 << 16

// each gives a text file as UTF-8 to take, block by block, from a place in that text on. No
// block ends within a letter; a mark at the beginning that tells the encoding is no part of it.
// A block is good for the call alone.
func (s *separated) each(from int64, take func([]byte) error) error {
	if s.size > maxPart {
		return s.whole("split it into smaller files", "the file has more than %d GiB", maxPart>>30)
	}
	source, err := s.decoder()
	if err != nil {
		return err
	}
	buf, kept, at := make([]byte, textBlock), 0, int64(0)
	for {
		n, err := io.ReadFull(source, buf[kept:])
		last := errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)
		if err != nil && !last {
			return s.undecoded(err, at)
		}
		block := buf[:kept+n]
		if !last {
			block = block[:complete(block)]
		}
		if err := s.vet(block, at); err != nil {
			return err
		}
		if skip := from - at; skip < int64(len(block)) {
			if err := take(block[max(skip, 0):]); err != nil {
				return err
			}
		}
		if last {
			return nil
		}
		at += int64(len(block))
		kept = copy(buf, buf[len(block):kept+n])
	}
}

// complete gives how many bytes at the beginning are whole letters, where the rest may be the
// beginning of one.
func complete(b []byte) int {
	for back := 1; back < utf8.UTFMax && back <= len(b); back++ {
		if i := len(b) - back; utf8.RuneStart(b[i]) {
			if utf8.FullRune(b[i:]) {
				return len(b)
			}
			return i
		}
	}
	return len(b)
}

// decoder gives the bytes as UTF-8, as far as they are: what else there is, vet finds.
func (s *separated) decoder() (io.Reader, error) {
	head := make([]byte, min(s.size, 3))
	if n, err := s.from.ReadAt(head, 0); n < len(head) {
		return nil, broken(err, "the file cannot be read")
	}
	rest := func(skip int64) io.Reader { return io.NewSectionReader(s.from, skip, s.size-skip) }
	switch {
	case bytes.HasPrefix(head, []byte("\xef\xbb\xbf")):
		return rest(3), nil
	case bytes.HasPrefix(head, []byte("\xff\xfe")):
		return &narrowed{wide{from: bufio.NewReader(rest(2)), order: binary.LittleEndian}}, nil
	case bytes.HasPrefix(head, []byte("\xfe\xff")):
		return &narrowed{wide{from: bufio.NewReader(rest(2)), order: binary.BigEndian}}, nil
	}
	return rest(0), nil
}

// narrowed reads UTF-16 as UTF-8.
type narrowed struct{ wide }

func (n *narrowed) Read(p []byte) (int, error) {
	for i := range p {
		b, err := n.ReadByte()
		if err != nil {
			return i, err
		}
		p[i] = b
	}
	return len(p), nil
}

// undecoded says why the bytes cannot be read to their end.
func (s *separated) undecoded(err error, at int64) error {
	if errors.Is(err, errUTF16) {
		return s.whole(copyAgain, "the file is damaged: it begins like UTF-16 and has half a character somewhere behind line %d", s.lineOf(at))
	}
	return spot{sheet: s.name}.unread(err)
}

// vet holds a block at a place in the text against what a text may hold.
func (s *separated) vet(block []byte, at int64) error {
	if i := bytes.IndexByte(block, 0); i >= 0 {
		return s.whole(saveUTF8, "line %d of the file holds a zero byte, which no text has: it is not text, or text in UTF-16 without the mark that says so", s.lineOf(at+int64(i)))
	}
	if utf8.Valid(block) {
		return nil
	}
	i := 0
	for i < len(block) {
		r, size := utf8.DecodeRune(block[i:])
		if r == utf8.RuneError && size <= 1 {
			break
		}
		i += size
	}
	return s.whole(saveUTF8, "line %d of the file has a byte (%02X, behind %q) that is no letter in UTF-8: the file is in an older encoding, and which one nobody can tell for certain",
		s.lineOf(at+int64(i)), block[i], before(block[:i]))
}

// before gives the last letters of a line, as far as it is told.
func before(text []byte) string {
	if i := bytes.LastIndexAny(text, "\r\n"); i >= 0 {
		text = text[i+1:]
	}
	all := []rune(string(text))
	return string(all[max(0, len(all)-20):])
}

// lineOf gives the line of a place in the text, which is looked through once more for it.
func (s *separated) lineOf(place int64) int {
	source, err := s.decoder()
	if err != nil {
		return 1
	}
	line, cr := 1, false
	text := bufio.NewReader(io.LimitReader(source, place))
	for {
		c, err := text.ReadByte()
		if err != nil {
			return line
		}
		if c == '\r' || c == '\n' && !cr {
			line++
		}
		cr = c == '\r'
	}
}
