// Package data writes what the compiler knows as JSON: findings and coverage, and
// for each platform and the whole catalogue one file for the world and one for the
// staff.
//
// What is public is written from types of its own, which have no field for a cell, an
// internal note or planned work, so that nothing internal can slip out with a new
// field of the model. The staff's types embed them and add the rest.
//
// The same catalogue gives the same bytes: fields stand in a fixed order, traits as
// they are declared. Strings are plain UTF-8; `<`, `>` and `&` stand as themselves,
// since these are files and never part of a page.
package data

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
)

// object is a JSON object whose fields stand in a given order.
type object []field

type field struct {
	name  string
	value any
}

func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	b.WriteByte('{')
	for i, f := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := e.Encode(f.name); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := e.Encode(f.value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// UnmarshalJSON keeps the order of the fields.
func (o *object) UnmarshalJSON(text []byte) error {
	d := json.NewDecoder(bytes.NewReader(text))
	if t, err := d.Token(); err != nil || t != json.Delim('{') {
		return cmp.Or(err, errors.New("an object is wanted"))
	}
	*o = object{}
	for d.More() {
		name, err := d.Token()
		if err != nil {
			return err
		}
		var value any
		if err := d.Decode(&value); err != nil {
			return err
		}
		*o = append(*o, field{name.(string), value})
	}
	return nil
}

// no is the value of a flag that is only ever written where it is false.
func no(when bool) *bool {
	if !when {
		return nil
	}
	return new(bool)
}
