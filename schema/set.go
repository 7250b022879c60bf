package schema

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"github.com/santhosh-tekuri/jsonschema/v5"

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

// rules is one compiled schema with its source, which sentences are made from.
type rules struct {
	schema *jsonschema.Schema
	docs   map[string]any // by address
	folded map[string]bool
}

// own is where a catalogue's schemas stand, so that a reference between two of them
// is a name in the same folder. Nothing is ever fetched from it.
const own = "https://catalogue.invalid/"

const base = "https://ferrule.invalid/"

// New compiles the schemas of all kinds of sheet and those of the catalogue. A schema
// that cannot be used is a Problem, and the others apply.
func New(extra []Extra) (*Set, []Problem) {
	s := &Set{kinds: map[string][]*rules{}}
	for _, kind := range Kinds() {
		r, err := compile(base+"rows/"+kind+".schema.json", map[string][]byte{base + "rows/" + kind + ".schema.json": rowFile(kind)})
		if err != nil {
			panic("schema: New: " + kind + ": " + err.Error())
		}
		s.kinds[kind] = append(s.kinds[kind], r)
	}
	return s, s.add(extra)
}

func (s *Set) add(extra []Extra) []Problem {
	var problems []Problem
	all := map[string][]byte{}
	for _, x := range extra {
		if why := hazard(x.Data); why != "" {
			problems = append(problems, Problem{x.Name, x.Name + " cannot be used: " + why})
			continue
		}
		all[own+x.Name] = x.Data
	}
	for _, x := range extra {
		if all[own+x.Name] == nil {
			continue
		}
		kind := kindOf(x.Name)
		if !slices.Contains(Kinds(), kind) {
			if near := word.Nearest(kind, Kinds()); near != "" && !mentioned(x.Name, extra) {
				problems = append(problems, Problem{x.Name, fmt.Sprintf("%s is for no kind of sheet; did you mean %s.schema.json?", x.Name, near)})
			}
			continue
		}
		r, err := compile(own+x.Name, all)
		if err != nil {
			problems = append(problems, Problem{x.Name, x.Name + " cannot be used: " + explain(err)})
			continue
		}
		s.kinds[kind] = append(s.kinds[kind], r)
	}
	return problems
}

// kindOf gives the run of letters that a file's name begins with.
func kindOf(name string) string {
	end := strings.IndexFunc(name, func(r rune) bool { return !unicode.IsLetter(r) })
	if end < 0 {
		end = len(name)
	}
	return strings.ToLower(name[:end])
}

func mentioned(name string, extra []Extra) bool {
	return slices.ContainsFunc(extra, func(x Extra) bool { return x.Name != name && bytes.Contains(x.Data, []byte(name)) })
}

// errOutside says that a schema refers to something outside its folder.
var errOutside = errors.New("it refers to something outside its folder; copy that file beside it and name it alone")

func compile(address string, resources map[string][]byte) (*rules, error) {
	c := jsonschema.NewCompiler()
	c.Draft = jsonschema.Draft2020
	c.AssertFormat = true
	c.LoadURL = func(s string) (io.ReadCloser, error) { return nil, fmt.Errorf("%s: %w", s, errOutside) }
	r := &rules{docs: map[string]any{}}
	for at, data := range resources {
		doc, err := document(data)
		if err != nil {
			if at == address {
				return nil, err
			}
			continue
		}
		r.docs[at] = doc
		if err := c.AddResource(at, bytes.NewReader(data)); err != nil && at == address {
			return nil, err
		}
	}
	var err error
	if r.schema, err = c.Compile(address); err != nil {
		return nil, err
	}
	r.folded = folded(r.docs[address])
	return r, nil
}

// explain makes a sentence of the library's error.
func explain(err error) string {
	if errors.Is(err, errOutside) || strings.Contains(err.Error(), errOutside.Error()) {
		return errOutside.Error()
	}
	var invalid *jsonschema.ValidationError
	if errors.As(err, &invalid) {
		leaves := leavesOf(invalid, nil)
		slices.SortFunc(leaves, func(a, b *jsonschema.ValidationError) int {
			return strings.Compare(a.InstanceLocation+a.Message, b.InstanceLocation+b.Message)
		})
		return fmt.Sprintf("it is no JSON Schema: at %s: %s", leaves[0].InstanceLocation, leaves[0].Message)
	}
	return strings.ReplaceAll(err.Error(), own, "")
}

// exponent finds numbers whose exponent alone would fill the memory when they are
// made exact.
var exponent = regexp.MustCompile(`\d[eE][+-]?\d{4,}`)

// maxDepth bounds how deep a schema nests.
const maxDepth = 100

func hazard(data []byte) string {
	doc, err := document(data)
	switch {
	case err != nil:
		return err.Error()
	case exponent.Match(data):
		return "it holds a number with an exponent of four digits or more"
	case depth(doc) > maxDepth:
		return fmt.Sprintf("it nests deeper than %d levels", maxDepth)
	}
	return ""
}

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

// folded gives the properties whose words are compared with case folded.
func folded(doc any) map[string]bool {
	out := map[string]bool{}
	top, _ := doc.(map[string]any)
	properties, _ := top["properties"].(map[string]any)
	for name, p := range properties {
		if p, ok := p.(map[string]any); ok && p["x-fold"] == true {
			out[name] = true
		}
	}
	return out
}
