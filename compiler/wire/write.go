package wire

import (
	"bytes"
	"encoding/json"
	"io"
)

// Write gives v as JSON, indented by two spaces, with a line break at the end.
func Write(w io.Writer, v any) error { return encoder(w, "").Encode(v) }

func encoder(w io.Writer, prefix string) *json.Encoder {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent(prefix, "  ")
	return e
}

// Each gives f of every element; never nil, so that an empty list is written as one.
func Each[T, U any](in []T, f func(T) U) []U {
	out := make([]U, len(in))
	for i, v := range in {
		out[i] = f(v)
	}
	return out
}

// List is a list of a file whose elements are made as they are written, so that the whole
// of it is never in memory.
type List struct {
	name     string
	length   int
	at       func(int) any
	optional bool
}

// ListOf is the list of f of every element.
func ListOf[T, U any](name string, in []T, f func(T) U) List {
	return List{name: name, length: len(in), at: func(i int) any { return f(in[i]) }}
}

// OrNone is the list, left out where it is empty.
func (l List) OrNone() List {
	l.optional = true
	return l
}

// WriteLists gives an object as Write does: the fields of head, of which there are some,
// then lists.
func WriteLists(w io.Writer, head any, lists ...List) error {
	var b bytes.Buffer
	if err := Write(&b, head); err != nil {
		return err
	}
	text := bytes.TrimSuffix(b.Bytes(), []byte("\n}\n"))
	if _, err := w.Write(text); err != nil {
		return err
	}
	for _, l := range lists {
		if l.optional && l.length == 0 {
			continue
		}
		if err := l.write(w); err != nil {
			return err
		}
	}
	_, err := io.WriteString(w, "\n}\n")
	return err
}

// WriteList gives an object as Write does that has one list and nothing else.
func WriteList(w io.Writer, l List) error {
	if err := l.behind(w, "{"); err != nil {
		return err
	}
	_, err := io.WriteString(w, "\n}\n")
	return err
}

func (l List) write(w io.Writer) error { return l.behind(w, ",") }

// behind writes the field behind what ends the line before it.
func (l List) behind(w io.Writer, before string) error {
	name, err := json.Marshal(l.name)
	if err != nil {
		return err
	}
	if _, err := io.WriteString(w, before+"\n  "+string(name)+": "); err != nil {
		return err
	}
	return l.elements(w, "  ")
}

// elements writes the list itself, which ends on a line with that indentation.
func (l List) elements(w io.Writer, indent string) error {
	var b bytes.Buffer
	b.WriteByte('[')
	inner := indent + "  "
	e := encoder(&b, inner)
	for i := range l.length {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString("\n" + inner)
		if err := e.Encode(l.at(i)); err != nil {
			return err
		}
		b.Truncate(b.Len() - 1) // the line break that an encoder ends with
		if _, err := w.Write(b.Bytes()); err != nil {
			return err
		}
		b.Reset()
	}
	if l.length > 0 {
		b.WriteString("\n" + indent)
	}
	b.WriteByte(']')
	_, err := w.Write(b.Bytes())
	return err
}
