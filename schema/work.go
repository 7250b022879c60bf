package schema

import (
	"errors"
	"fmt"
	"slices"

	"github.com/santhosh-tekuri/jsonschema/v5"
)

// maxWork bounds how many rules one row may meet: references can make a short schema
// that doubles with each of its lines.
const maxWork = 10_000

// errLoop is about in-place references in a ring.
var errLoop = errors.New("a reference in it leads back to itself, so that no row could ever be decided")

// tooMuch refuses a schema that leads back to itself or that would hold up every row.
func tooMuch(s *jsonschema.Schema) error {
	w := worker{known: map[task]int{}, open: map[task]bool{}}
	switch n := w.weigh(task{s, true}); {
	case w.loops:
		return errLoop
	case n > maxWork:
		return fmt.Errorf("its references multiply to more than %d rules for one row", maxWork)
	}
	return nil
}

// task is a schema held against a row, or else against one cell, into which no rule
// leads further.
type task struct {
	schema *jsonschema.Schema
	row    bool
}

type worker struct {
	known map[task]int
	open  map[task]bool
	loops bool
}

// weigh gives the number of rules that a schema leads to, counting each as often as it
// is met, no further than just above maxWork.
func (w *worker) weigh(t task) int {
	if n, ok := w.known[t]; ok || t.schema == nil {
		return n
	}
	if w.open[t] {
		w.loops = true
		return 0
	}
	w.open[t] = true
	n := 1
	for _, s := range here(t.schema) {
		n = min(n+w.weigh(task{s, t.row}), maxWork+1)
	}
	if t.row {
		for _, s := range below(t.schema) {
			n = min(n+w.weigh(task{s, false}), maxWork+1)
		}
	}
	delete(w.open, t)
	w.known[t] = n
	return n
}

// here gives the schemas that the same value is held against.
func here(s *jsonschema.Schema) []*jsonschema.Schema {
	out := []*jsonschema.Schema{s.Ref, s.Not, s.If, s.Then, s.Else}
	out = slices.Concat(out, s.AllOf, s.AnyOf, s.OneOf)
	for _, d := range s.DependentSchemas {
		out = append(out, d)
	}
	for _, d := range s.Dependencies {
		if d, ok := d.(*jsonschema.Schema); ok {
			out = append(out, d)
		}
	}
	return out
}

// below gives the schemas that the columns of a row are held against.
func below(s *jsonschema.Schema) []*jsonschema.Schema {
	out := []*jsonschema.Schema{s.PropertyNames, s.UnevaluatedProperties}
	if a, ok := s.AdditionalProperties.(*jsonschema.Schema); ok {
		out = append(out, a)
	}
	for _, p := range s.Properties {
		out = append(out, p)
	}
	for _, p := range s.PatternProperties {
		out = append(out, p)
	}
	return out
}
