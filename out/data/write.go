package data

import (
	"bytes"
	"encoding/json"
	"io"
)

// write gives v as JSON, indented by two spaces, with a line break at the end.
func write(w io.Writer, v any) error { return encoder(w, "").Encode(v) }

func encoder(w io.Writer, prefix string) *json.Encoder {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent(prefix, "  ")
	return e
}

// list is a list of a file whose elements are made as they are written, so that the whole
// of it is never in memory.
type list struct {
	name     string
	length   int
	at       func(int) any
	optional bool
}

// listOf is the list of f of every element.
func listOf[T, U any](name string, in []T, f func(T) U) list {
	return list{name: name, length: len(in), at: func(i int) any { return f(in[i]) }}
}

// orNone is the list, left out where it is empty.
func (l list) orNone() list {
	l.optional = true
	return l
}

// writeLists gives an object as write does: the fields of head, of which there are some,
// then lists.
func writeLists(w io.Writer, head any, lists ...list) error {
	var b bytes.Buffer
	if err := write(&b, head); err != nil {
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

func (l list) write(w io.Writer) error {
	name, err := json.Marshal(l.name)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	b.WriteString(",\n  " + string(name) + ": [")
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
