package wire

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
)

// Object is a JSON object whose fields stand in a given order.
type Object []Field

// Field is a field of an Object.
type Field struct {
	Name  string // key in the object
	Value any    // what encoding/json takes
}

// MarshalJSON writes the fields in their order.
func (o Object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	b.WriteByte('{')
	for i, f := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := e.Encode(f.Name); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := e.Encode(f.Value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// UnmarshalJSON keeps the order of the fields.
func (o *Object) UnmarshalJSON(text []byte) error {
	d := json.NewDecoder(bytes.NewReader(text))
	if t, err := d.Token(); err != nil || t != json.Delim('{') {
		return cmp.Or(err, errors.New("an object is wanted"))
	}
	*o = Object{}
	for d.More() {
		name, err := d.Token()
		if err != nil {
			return err
		}
		var value any
		if err := d.Decode(&value); err != nil {
			return err
		}
		*o = append(*o, Field{name.(string), value})
	}
	return nil
}

// No is the value of a flag that is only ever written where it is false.
func No(when bool) *bool {
	if !when {
		return nil
	}
	return new(bool)
}
