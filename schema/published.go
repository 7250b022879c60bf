package schema

import (
	"errors"
	"fmt"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v5"
)

// published are the schemas of what is published, read once; each is compiled when it is first
// asked for.
var published = sync.OnceValue(func() *publishedSchemas {
	entries, err := files.ReadDir("published")
	if err != nil {
		panic("schema: published: " + err.Error())
	}
	out := &publishedSchemas{docs: map[string]any{}, compiled: map[string]func() *jsonschema.Schema{}}
	for _, e := range entries {
		doc, err := document(embedded("published/" + e.Name()))
		if err != nil {
			panic("schema: published: " + e.Name() + ": " + err.Error())
		}
		address := base + "published/" + e.Name()
		out.docs[address] = doc
		out.compiled[e.Name()] = sync.OnceValue(func() *jsonschema.Schema {
			r, err := compile(address, out.docs)
			if err != nil {
				panic("schema: published: " + e.Name() + ": " + err.Error())
			}
			return r.schema
		})
	}
	return out
})

type publishedSchemas struct {
	docs     map[string]any // by address
	compiled map[string]func() *jsonschema.Schema
}

// ValidatePublished holds a published file against its schema, named as in the folder
// published: findings.schema.json. The error says the place and the rule that come
// first.
func ValidatePublished(name string, data []byte) error {
	compiled := published().compiled[name]
	if compiled == nil {
		return fmt.Errorf("there is no schema called %s", name)
	}
	v, err := document(data)
	if err != nil {
		return err
	}
	err = compiled().Validate(v)
	var invalid *jsonschema.ValidationError
	if errors.As(err, &invalid) {
		leaf := first(invalid)
		return fmt.Errorf("%s: %s", place(leaf.InstanceLocation), leaf.Message)
	}
	return err
}
