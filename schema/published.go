package schema

import (
	"errors"
	"fmt"

	"github.com/santhosh-tekuri/jsonschema/v5"
)

// ValidatePublished holds a published file against its schema, named as in the folder
// published: findings.schema.json. The error says the place and the rule that come
// first.
func ValidatePublished(name string, data []byte) error {
	entries, err := files.ReadDir("published")
	if err != nil {
		panic("schema: ValidatePublished: " + err.Error())
	}
	docs := map[string]any{}
	for _, e := range entries {
		doc, err := document(embedded("published/" + e.Name()))
		if err != nil {
			panic("schema: ValidatePublished: " + e.Name() + ": " + err.Error())
		}
		docs[base+"published/"+e.Name()] = doc
	}
	if docs[base+"published/"+name] == nil {
		return fmt.Errorf("there is no schema called %s", name)
	}
	r, err := compile(base+"published/"+name, docs)
	if err != nil {
		panic("schema: ValidatePublished: " + name + ": " + err.Error())
	}
	v, err := document(data)
	if err != nil {
		return err
	}
	err = r.schema.Validate(v)
	var invalid *jsonschema.ValidationError
	if errors.As(err, &invalid) {
		leaf := first(invalid)
		return fmt.Errorf("%s: %s", place(leaf.InstanceLocation), leaf.Message)
	}
	return err
}
