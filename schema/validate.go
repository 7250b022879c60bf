package schema

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v5"

	"ferrule/schema/word"
)

// Row is the filled cells of one row, in the order of the columns.
type Row struct {
	Fields []Field
}

// Field is a cell: a string, a float64 or a bool under the name of its column.
type Field struct {
	Name  string
	Value any
}

// Violation is a rule that a row breaks.
type Violation struct {
	Field   string // the column, "" where it is about the row
	Rule    string // where the rule stands in its schema
	Message string // one sentence: what is there, what is allowed
}

// Validate holds a row against the schemas of its kind of sheet. The violations are in
// the order of column, then rule, whatever order the library finds them in.
func (s *Set) Validate(kind string, row Row) []Violation {
	var out []Violation
	for _, f := range row.Fields {
		if n, ok := f.Value.(float64); ok && (math.IsNaN(n) || math.IsInf(n, 0)) {
			return []Violation{{f.Name, "type", fmt.Sprintf("%s holds a number that cannot be read", f.Name)}}
		}
	}
	for _, r := range s.kinds[kind] {
		out = append(out, r.validate(row)...)
	}
	order := map[string]int{}
	for i, f := range row.Fields {
		order[f.Name] = i + 1
	}
	slices.SortStableFunc(out, func(a, b Violation) int {
		if d := order[a.Field] - order[b.Field]; d != 0 {
			return d
		}
		return strings.Compare(a.Field+"\x00"+a.Rule+"\x00"+a.Message, b.Field+"\x00"+b.Rule+"\x00"+b.Message)
	})
	return slices.CompactFunc(out, func(a, b Violation) bool { return a.Field == b.Field && a.Message == b.Message })
}

func (r *rules) validate(row Row) []Violation {
	object := make(map[string]any, len(row.Fields))
	for _, f := range row.Fields {
		object[f.Name] = f.Value
		if text, ok := f.Value.(string); ok && r.folded[f.Name] {
			object[f.Name] = word.Fold(text)
		}
	}
	err := r.schema.Validate(object)
	var invalid *jsonschema.ValidationError
	switch {
	case err == nil:
		return nil
	case !errors.As(err, &invalid):
		return []Violation{{"", "", "the row cannot be held against its schema: " + err.Error()}}
	}
	var out []Violation
	for _, leaf := range leavesOf(invalid, nil) {
		out = append(out, r.say(leaf, row)...)
	}
	return out
}

// leavesOf gives the errors that name a broken rule. Below anyOf, oneOf and not the
// alternatives explain nothing, so the error itself is the leaf.
func leavesOf(e *jsonschema.ValidationError, out []*jsonschema.ValidationError) []*jsonschema.ValidationError {
	switch keyword(e) {
	case "anyOf", "oneOf", "not", "contains":
		return append(out, e)
	}
	if len(e.Causes) == 0 {
		return append(out, e)
	}
	for _, c := range e.Causes {
		out = leavesOf(c, out)
	}
	return out
}

func keyword(e *jsonschema.ValidationError) string {
	return e.KeywordLocation[strings.LastIndexByte(e.KeywordLocation, '/')+1:]
}
