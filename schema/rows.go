// Package schema holds the JSON Schemas (2020-12) of the sheets and of the published
// files, and says what breaks them in plain sentences.
//
// A row is an object with its columns as properties and blank cells left out. A
// catalogue can bring stricter schemas of its own, which apply as well.
package schema

import (
	"bytes"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
)

//go:embed rows/*.schema.json published/*.schema.json
var files embed.FS

// Kinds gives the kinds of sheet, lower case, in the order of the format page.
func Kinds() []string {
	return []string{"settings", "platforms", "traits", "vehicles", "positions", "parts", "kits", "references",
		"sizes", "fitment", "compatibility", "facts", "limits", "calculated", "cautions", "accepted"}
}

// Column is a column that a kind of sheet defines.
type Column struct {
	Name     string
	Required bool // the header must hold it
}

// Columns gives the columns of a kind of sheet, in the order in which the format page
// names them; none for a kind that is not known.
func Columns(kind string) []Column {
	if !slices.Contains(Kinds(), kind) {
		return nil
	}
	var doc struct {
		Columns []string `json:"x-columns"`
		Header  []string `json:"x-header"`
	}
	if err := json.Unmarshal(rowFile(kind), &doc); err != nil {
		panic("schema: Columns: " + err.Error())
	}
	out := make([]Column, len(doc.Columns))
	for i, c := range doc.Columns {
		out[i] = Column{c, slices.Contains(doc.Header, c)}
	}
	return out
}

func rowFile(kind string) []byte { return embedded("rows/" + kind + ".schema.json") }

func embedded(name string) []byte {
	data, err := files.ReadFile(name)
	if err != nil {
		panic("schema: embedded: " + err.Error())
	}
	return data
}

// document reads JSON as plain values, numbers as they are written.
func document(data []byte) (any, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff")) // some editors put it first
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	var doc any
	if err := d.Decode(&doc); err != nil {
		var syntax *json.SyntaxError
		if errors.As(err, &syntax) {
			line := 1 + bytes.Count(data[:min(int(syntax.Offset), len(data))], []byte("\n"))
			return nil, fmt.Errorf("it is no JSON: line %d: %w", line, err)
		}
		return nil, fmt.Errorf("it is no JSON: it ends too early: %w", err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("it is no JSON: more follows after the end")
	}
	return doc, nil
}

func sortedKeys(m map[string]any) []string { return slices.Sorted(maps.Keys(m)) }
