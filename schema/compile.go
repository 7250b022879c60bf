package schema

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/url"
	"slices"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v5"

	"ferrule/schema/word"
)

// rules is one compiled schema with its source, which sentences are made from.
type rules struct {
	schema *jsonschema.Schema
	docs   map[string]any  // by address
	folded map[string]bool // the columns whose words are compared with case folded
}

// Addresses are only names: nothing is ever fetched. A catalogue's schemas stand in a
// folder of their own, so that a reference between two of them is a name alone, and
// one that climbs out of the folder is seen.
const (
	base = "https://ferrule.invalid/"
	own  = "https://catalogue.invalid/schemas/"
)

// compile makes rules of the document at one address, which may refer to the others.
// The error is a sentence without the file's name.
func compile(address string, docs map[string]any) (r *rules, err error) {
	defer func() {
		if p := recover(); p != nil { // the library asserts what a schema can break
			r, err = nil, fmt.Errorf("it is no JSON Schema: %v", p)
		}
	}()
	c := jsonschema.NewCompiler()
	c.Draft = jsonschema.Draft2020
	large := quick(docs)
	if large {
		c.Draft = jsonschema.Draft2019
	}
	c.AssertFormat = true
	c.LoadURL = func(s string) (io.ReadCloser, error) { return nil, missing(s, docs) }
	for at, doc := range docs {
		if large {
			doc = undated(doc)
		}
		data, err := json.Marshal(doc)
		if err != nil {
			panic("schema: compile: a document that is no JSON: " + err.Error())
		}
		if err := c.AddResource(at, bytes.NewReader(data)); err != nil {
			return nil, err
		}
	}
	r = &rules{docs: docs, folded: folded(docs[address])}
	if r.schema, err = c.Compile(address); err != nil {
		return nil, explain(err)
	}
	return r, nil
}

// outside is the error for a reference to what is not beside the schema.
type outside struct{ sentence string }

func (o *outside) Error() string { return o.sentence }

// missing says why a reference leads nowhere.
func missing(address string, docs map[string]any) error {
	name, inside := strings.CutPrefix(address, own)
	if !inside || strings.Contains(name, "/") {
		return &outside{fmt.Sprintf("it refers to %s, outside its folder, and nothing is fetched from there; "+
			"copy that schema beside it and refer to it by its file name alone", strings.TrimPrefix(strings.TrimPrefix(address, own), hostOf(own)))}
	}
	var stems []string
	for at := range docs {
		stems = append(stems, stem(fileName(at)))
	}
	slices.Sort(stems)
	hint := ""
	if near := word.Nearest(stem(fileName(address)), stems); near != "" {
		hint = " (did you mean " + near + suffix + "?)"
	}
	return &outside{fmt.Sprintf("it refers to %s, and no schema that can be used is called so%s", fileName(address), hint)}
}

// suffix ends the names of schema files.
const suffix = ".schema.json"

func stem(name string) string { return strings.TrimSuffix(name, suffix) }

// hostOf gives an address up to its path.
func hostOf(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		panic("schema: hostOf: " + err.Error())
	}
	return u.Scheme + "://" + u.Host
}

// addressOf gives a file's address in the form in which the library keeps it.
func addressOf(name string) string { return own + (&url.URL{Path: name}).EscapedPath() }

func fileName(address string) string {
	name := strings.TrimPrefix(address, own)
	if plain, err := url.PathUnescape(name); err == nil {
		return plain
	}
	return name
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

// explain makes a sentence of the library's error.
func explain(err error) error {
	if o, ok := errorAs[*outside](err); ok {
		return o
	}
	if _, ok := errorAs[jsonschema.InfiniteLoopError](err); ok {
		return errLoop
	}
	if invalid, ok := errorAs[*jsonschema.ValidationError](err); ok {
		leaf := first(invalid)
		why := leaf.Message
		if at := keyword(leaf); at == "anyOf" || at == "enum" {
			why = "this keyword cannot have that value"
		}
		return fmt.Errorf("it is no JSON Schema: %s: %s", place(leaf.InstanceLocation), why)
	}
	text := err.Error()
	if _, why, ok := strings.Cut(text, "compilation failed: "); ok {
		text = why
	}
	return fmt.Errorf("it cannot be used as a JSON Schema: %s", strings.ReplaceAll(text, own, ""))
}

// first gives the broken rule that comes first by place, whatever order the library
// finds them in.
func first(e *jsonschema.ValidationError) *jsonschema.ValidationError {
	leaves := leavesOf(e, nil)
	return slices.MinFunc(leaves, func(a, b *jsonschema.ValidationError) int {
		return strings.Compare(a.InstanceLocation+"\x00"+a.KeywordLocation+"\x00"+a.Message,
			b.InstanceLocation+"\x00"+b.KeywordLocation+"\x00"+b.Message)
	})
}

// place gives a JSON Pointer as people read it.
func place(pointer string) string {
	if pointer == "" {
		return "at its top"
	}
	return "at " + strings.TrimPrefix(unescape(pointer), "/")
}
