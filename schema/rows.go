// Package schema holds the JSON Schemas (2020-12) of the sheets and of the published
// files, and says what breaks them in plain sentences.
//
// A row is an object with its columns as properties and blank cells left out. A
// catalogue can bring stricter schemas of its own, which apply as well.
//
// The schemas of rows are the vocabulary of the whole program: the kinds of sheet, their
// columns and what each of them holds, and the words that a column takes. A column more is a
// property more in one of them.
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
