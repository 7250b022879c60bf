package schema

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"ferrule/schema/word"
)

// Extra is a schema file of the catalogue's own.
type Extra struct {
	Name string // parts.schema.json
	Data []byte
}

// Problem says why an Extra cannot be used.
type Problem struct {
	File    string
	Message string
}

// Set is the schemas that rows are held against.
type Set struct {
	kinds map[string][]*rules
}

// New compiles the schemas of all kinds of sheet and those of the catalogue. A schema
// that cannot be used is a Problem, and the others apply.
func New(extra []Extra) (*Set, []Problem) {
	s := &Set{kinds: map[string][]*rules{}}
	for _, kind := range Kinds() {
		s.kinds[kind] = []*rules{ours()[kind]}
	}
	return s, s.extend(extra)
}

// extend puts a catalogue's schemas beside ours.
func (s *Set) extend(extra []Extra) []Problem {
	docs := map[string]any{}
	var problems []Problem
	for _, x := range extra {
		doc, err := usable(x.Data)
		if err != nil {
			problems = append(problems, cannot(x, err))
			continue
		}
		docs[addressOf(x.Name)] = doc
	}
	for _, x := range extra {
		if _, ok := docs[addressOf(x.Name)]; !ok {
			continue
		}
		if p, bad := s.add(x, docs, extra); bad {
			problems = append(problems, p)
		}
	}
	return problems
}

// ours are the schemas of all kinds of sheet, compiled once and only read from then on.
var ours = sync.OnceValue(func() map[string]*rules {
	out := map[string]*rules{}
	for _, kind := range Kinds() {
		out[kind] = compiled(kind)
	}
	return out
})

func compiled(kind string) *rules {
	address := base + "rows/" + kind + ".schema.json"
	doc, err := document(rowFile(kind))
	if err != nil {
		panic("schema: compiled: " + kind + ": " + err.Error())
	}
	r, err := compile(address, map[string]any{address: doc})
	if err != nil {
		panic("schema: compiled: " + kind + ": " + err.Error())
	}
	return r
}

// add puts a catalogue's schema beside ours. One for no kind of sheet is there for
// others to refer to, unless it is nearly called like a kind.
func (s *Set) add(x Extra, docs map[string]any, extra []Extra) (Problem, bool) {
	kind, known := KindOf(x.Name)
	if !known {
		near := word.Nearest(kind, Kinds())
		if near == "" || mentioned(x.Name, extra) {
			return Problem{}, false
		}
		return Problem{x.Name, fmt.Sprintf("%s is for no kind of sheet, and no other schema refers to it; did you mean %s?", x.Name, near+suffix)}, true
	}
	r, err := compile(addressOf(x.Name), docs)
	if err == nil {
		err = tooMuch(r.schema)
	}
	if err != nil {
		return cannot(x, err), true
	}
	s.kinds[kind] = append(s.kinds[kind], r)
	return Problem{}, false
}

func cannot(x Extra, err error) Problem {
	return Problem{x.Name, fmt.Sprintf("%s cannot be used: %v", x.Name, err)}
}

func mentioned(name string, extra []Extra) bool {
	return slices.ContainsFunc(extra, func(x Extra) bool { return x.Name != name && bytes.Contains(x.Data, []byte(name)) })
}

// draft is the only dialect that a catalogue's schema may be in: others read the same
// words in other ways.
const draft = "https://json-schema.org/draft/2020-12/schema"

// usable reads a schema file and refuses what the library would not survive. The
// address that it gives itself is left out: it stands in its folder.
func usable(data []byte) (any, error) {
	doc, err := document(data)
	if err != nil {
		return nil, err
	}
	if depth(doc) > maxDepth {
		return nil, fmt.Errorf("it nests deeper than %d levels", maxDepth)
	}
	if err := hazard(doc); err != nil {
		return nil, err
	}
	if top, ok := doc.(map[string]any); ok {
		if d, ok := top["$schema"]; ok && strings.TrimSuffix(plain(d), "#") != draft {
			return nil, fmt.Errorf("its $schema is %s; write %s or leave it out", shown(d), draft)
		}
		if _, text := top["$id"].(string); text {
			delete(top, "$id")
		}
	}
	return doc, nil
}

// maxDepth bounds how deep a schema nests.
const maxDepth = 100

func depth(v any) int {
	most := 0
	switch v := v.(type) {
	case map[string]any:
		for _, x := range v {
			most = max(most, depth(x))
		}
	case []any:
		for _, x := range v {
			most = max(most, depth(x))
		}
	default:
		return 0
	}
	return most + 1
}

// hazard refuses what the library does not do as it should: numbers that would fill
// the memory when they are made exact, an enum that nothing can meet, and references whose target depends on the way to them: a row is flat and has no use
// for one, and what they cost cannot be told.
func hazard(v any) error {
	var errs []error
	switch v := v.(type) {
	case json.Number:
		return tooLarge(v.String())
	case []any:
		for _, x := range v {
			errs = append(errs, hazard(x))
		}
	case map[string]any:
		for _, key := range sortedKeys(v) {
			if _, text := v[key].(string); text && (key == "$dynamicRef" || key == "$recursiveRef") {
				errs = append(errs, fmt.Errorf("it uses %s; write $ref with the place that is meant", key))
			}
			if list, ok := v[key].([]any); ok && key == "enum" && len(list) == 0 {
				errs = append(errs, errors.New("it has an enum with nothing in it")) // the library would let all pass
			}
			errs = append(errs, hazard(v[key]))
		}
	}
	if i := slices.IndexFunc(errs, func(err error) bool { return err != nil }); i >= 0 {
		return errs[i]
	}
	return nil
}

// maxNumber and maxExponent bound the numbers of a schema, in characters.
const (
	maxNumber   = 100
	maxExponent = 3
)

func tooLarge(number string) error {
	if len(number) > maxNumber {
		return fmt.Errorf("it holds a number of more than %d characters", maxNumber)
	}
	if i := strings.IndexAny(number, "eE"); i >= 0 && len(strings.TrimLeft(number[i+1:], "+-0")) > maxExponent {
		return errors.New("it holds the number " + number + ", whose exponent has more than three digits")
	}
	return nil
}
