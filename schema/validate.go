package schema

import (
	"cmp"
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

// Validate holds a row against the schemas of its kind of sheet; a kind that is not
// known has none. The violations are in the order of the columns, whatever order the
// library finds them in; those about blank columns and the row come first.
func (s *Set) Validate(kind string, row Row) []Violation {
	var out []Violation
	for _, r := range s.kinds[kind] {
		out = append(out, r.validate(row)...)
	}
	out = append(out, unreadable(row)...)
	if len(out) < 2 {
		return out
	}
	order := map[string]int{}
	for i, f := range row.Fields {
		order[f.Name] = i + 1
	}
	slices.SortFunc(out, func(a, b Violation) int {
		return cmp.Or(order[a.Field]-order[b.Field], strings.Compare(a.Field, b.Field),
			strings.Compare(a.Message, b.Message), strings.Compare(a.Rule, b.Rule))
	})
	return slices.CompactFunc(out, func(a, b Violation) bool { return a.Field == b.Field && a.Message == b.Message })
}

// unreadable is about the numbers that no file can hold, and that the library would
// panic on.
func unreadable(row Row) []Violation {
	var out []Violation
	for _, f := range row.Fields {
		if !finite(f.Value) {
			out = append(out, Violation{f.Name, "/type", f.Name + " holds a number that cannot be read; type it again"})
		}
	}
	return out
}

func finite(v any) bool {
	n, ok := v.(float64)
	return !ok || !math.IsNaN(n) && !math.IsInf(n, 0)
}

func (r *rules) validate(row Row) []Violation {
	object := make(map[string]any, len(row.Fields))
	for _, f := range row.Fields {
		if _, twice := object[f.Name]; twice {
			continue // the header is reported; its first column holds
		}
		object[f.Name] = f.Value
		if !finite(f.Value) {
			object[f.Name] = nil // what the schemas say of it is left out below
		}
		if text, ok := f.Value.(string); ok && r.folded[f.Name] {
			object[f.Name] = word.Fold(text)
		}
	}
	var out []Violation
	for _, leaf := range leavesOf(r.hold(object), nil) {
		out = append(out, r.say(leaf, row)...)
	}
	return slices.DeleteFunc(out, func(v Violation) bool { return !finite(valueOf(row, v.Field)) })
}

// hold asks the library. What it cannot do, or panics on, becomes an error about the
// row, since schemas and rows are input.
func (r *rules) hold(object map[string]any) (e *jsonschema.ValidationError) {
	defer func() {
		if p := recover(); p != nil {
			e = &jsonschema.ValidationError{Message: fmt.Sprint(p)}
		}
	}()
	err := r.schema.Validate(object)
	if err == nil || errors.As(err, &e) {
		return e
	}
	return &jsonschema.ValidationError{Message: err.Error()}
}

// leavesOf gives the errors that name a broken rule. Below anyOf, oneOf and not the
// alternatives explain nothing, so the error itself is the leaf.
func leavesOf(e *jsonschema.ValidationError, out []*jsonschema.ValidationError) []*jsonschema.ValidationError {
	if e == nil {
		return out
	}
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

func errorAs[T error](err error) (T, bool) {
	var target T
	ok := errors.As(err, &target)
	return target, ok
}
