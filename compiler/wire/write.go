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
	single   any // in the place of a list; nil: it is one
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

// Single is a value among the lists of a file.
func Single(name string, v any) List { return List{name: name, single: v} }

// WriteLists gives an object as Write does: the fields of head, then lists.
func WriteLists(w io.Writer, head any, lists ...List) error {
	var b bytes.Buffer
	if err := Write(&b, head); err != nil {
		return err
	}
	between := ",\n  "
	text, some := bytes.CutSuffix(b.Bytes(), []byte("\n}\n"))
	if !some { // head has no field
		text, between = []byte("{"), "\n  "
	}
	if _, err := w.Write(text); err != nil {
		return err
	}
	for _, l := range lists {
		if l.optional && l.length == 0 {
			continue
		}
		if err := l.write(w, between); err != nil {
			return err
		}
		between = ",\n  "
	}
	_, err := io.WriteString(w, "\n}\n")
	return err
}

func (l List) write(w io.Writer, between string) error {
	name, err := json.Marshal(l.name)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	b.WriteString(between + string(name) + ": ")
	if l.single != nil {
		err := encoder(&b, "  ").Encode(l.single)
		b.Truncate(b.Len() - 1)
		if err == nil {
			_, err = w.Write(b.Bytes())
		}
		return err
	}
	b.WriteByte('[')
	e := encoder(&b, "    ")
	for i := range l.length {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString("\n    ")
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
		b.WriteString("\n  ")
	}
	b.WriteByte(']')
	_, err = w.Write(b.Bytes())
	return err
}
