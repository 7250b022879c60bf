package visible

import (
	"bytes"
	"fmt"
	"io"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// Form is what is written through a Writer, which decides how a sign is written that is
// not to be seen.
type Form int

const (
	Plain    Form = iota // text for people: <U+202E>
	Colours              // the same, with colours of a terminal (ECMA-48, select graphic rendition)
	Commands             // the same; lines may begin with commands of a build server
	JSON                 // JSON, and what is escaped as in JSON: \u202e
	XML                  // &#x202E;
)

// Writer writes what can be seen as it is and everything else escaped. Line breaks and
// tabs stay. So that no line is taken for a command, the second colon of one that begins
// with two is escaped, and the bracket of `##[` and `##word[` wherever it stands.
type Writer struct {
	under   io.Writer
	form    Form
	escaped int
	place   place
	marks   int    // 1 behind #, 2 behind ## and letters
	tail    []byte // the beginning of a sign whose rest has not come yet
	out     []byte
}

// place is where on a line something stands.
type place int

const (
	first  place = iota // at its beginning
	indent              // behind blanks
	colon               // behind a colon that is the first sign
	within
)

// NewWriter gives a writer of Plain text.
func NewWriter(under io.Writer) *Writer { return &Writer{under: under} }

// Set changes what is written from now on.
func (w *Writer) Set(f Form) *Writer {
	w.form = f
	return w
}

// Under gives what is written to, for whoever writes what a terminal has to obey.
func (w *Writer) Under() io.Writer { return w.under }

// Escaped counts the signs that were escaped so far.
func (w *Writer) Escaped() int { return w.escaped }

// Write writes what is whole in p; the beginning of a sign waits for its rest.
func (w *Writer) Write(p []byte) (int, error) {
	text := p
	if len(w.tail) > 0 {
		text = append(w.tail, p...)
		w.tail = nil
	}
	w.out = w.out[:0]
	for len(text) > 0 {
		n := w.run(text)
		w.out, text = append(w.out, text[:n]...), text[n:]
		if len(text) == 0 {
			break
		}
		if n = w.one(text); n == 0 {
			w.tail = bytes.Clone(text)
			break
		}
		text = text[n:]
	}
	if _, err := w.under.Write(w.out); err != nil {
		return 0, err
	}
	return len(p), nil
}

// Flush writes what has waited in vain.
func (w *Writer) Flush() error {
	w.out = w.out[:0]
	for _, r := range string(w.tail) {
		if r == utf8.RuneError || Hidden(r) {
			w.escape(r)
		} else {
			w.out = utf8.AppendRune(w.out, r)
		}
	}
	w.tail = nil
	_, err := w.under.Write(w.out)
	return err
}

// run gives how many bytes are plain: nearly all are, and only what may be hidden or may
// begin a command is looked at sign by sign.
func (w *Writer) run(text []byte) int {
	if w.marks != 0 || w.place == colon {
		return 0
	}
	for i, c := range text {
		switch {
		case c == '\n':
			w.place = first
		case c < ' ' || c == '#' || c >= 0x7f:
			return i
		case w.place == within:
		case c == ' ':
			w.place = indent
		case c == ':':
			return i
		default:
			w.place = within
		}
	}
	return len(text)
}

// one writes one sign and gives its length, 0 where its rest has not come yet.
func (w *Writer) one(text []byte) int {
	if text[0] == '\x1b' && w.form == Colours {
		if n := colour(text); n >= 0 {
			w.out = append(w.out, text[:n]...)
			return n
		}
	}
	if !utf8.FullRune(text) {
		return 0
	}
	r, n := utf8.DecodeRune(text)
	odd := r == utf8.RuneError && n == 1 || Hidden(r) && r != '\n' && r != '\t'
	if w.command(r) || odd {
		w.escape(r)
	} else {
		w.out = append(w.out, text[:n]...)
	}
	return n
}

// colour gives the length of the sequence for a colour that a text begins with: 0 where
// its rest has not come yet, -1 where it is none.
func colour(text []byte) int {
	const longest = len("\x1b[1;31m")
	for i, c := range text[1:min(len(text), longest)] {
		switch {
		case i == 0 && c == '[' || i > 0 && (c >= '0' && c <= '9' || c == ';'):
		case i > 0 && c == 'm':
			return i + 2
		default:
			return -1
		}
	}
	if len(text) < longest {
		return 0
	}
	return -1
}

// command takes a sign in and tells whether a build server would see a command with it.
func (w *Writer) command(r rune) bool {
	obeyed := w.place == colon && r == ':' || w.marks == 2 && r == '['
	switch {
	case r == '#' && w.marks < 2:
		w.marks++
	case r == '#' || w.marks == 2 && (r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'):
	default:
		w.marks = 0
	}
	switch {
	case r == '\n':
		w.place = first
	case w.place <= indent && unicode.IsSpace(r):
		w.place = indent
	case w.place == first && w.form == Commands:
		w.place = within
	case w.place <= indent && r == ':':
		w.place = colon
	default:
		w.place = within
	}
	return obeyed
}

func (w *Writer) escape(r rune) {
	w.escaped++
	switch w.form {
	case JSON:
		if high, low := utf16.EncodeRune(r); high != utf8.RuneError {
			w.out = fmt.Appendf(w.out, `\u%04x`, high)
			r = low
		}
		w.out = fmt.Appendf(w.out, `\u%04x`, r)
	case XML:
		w.out = fmt.Appendf(w.out, "&#x%X;", r)
	default:
		w.out = angles(w.out, r)
	}
}
