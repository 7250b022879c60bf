package wire

import (
	"bytes"
	"encoding/json"
	"io"
)

// WriteAround gives v as Write does with the list in place of the one list of its name in v,
// which is there and empty. The whole of v, apart from the list, is made at once.
func WriteAround(w io.Writer, v any, list List) error {
	var b bytes.Buffer
	if err := Write(&b, v); err != nil {
		return err
	}
	name, err := json.Marshal(list.name)
	if err != nil {
		return err
	}
	name = append(name, ": "...)
	// Quotation marks in a text are escaped, so that this is a field and no text.
	before, after, found := bytes.Cut(b.Bytes(), append(name, "[]"...))
	if !found {
		panic("wire: there is no empty list " + list.name)
	}
	line := before[bytes.LastIndexByte(before, '\n')+1:]
	if _, err := w.Write(append(before[:len(before):len(before)], name...)); err != nil {
		return err
	}
	if err := list.elements(w, string(line)); err != nil {
		return err
	}
	_, err = w.Write(after)
	return err
}
