package schema

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/url"
)

func urlUnescape(s string) (string, error) { return url.PathUnescape(s) }

// ValidatePublished holds a published file against its schema, named as in the folder
// published: findings.schema.json.
func ValidatePublished(name string, data []byte) error {
	address := base + "published/" + name
	entries, err := files.ReadDir("published")
	if err != nil {
		panic("schema: ValidatePublished: " + err.Error())
	}
	all := map[string][]byte{}
	for _, e := range entries {
		all[base+"published/"+e.Name()] = embedded("published/" + e.Name())
	}
	if all[address] == nil {
		return fmt.Errorf("there is no schema called %s", name)
	}
	r, err := compile(address, all)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		return fmt.Errorf("it is no JSON: %w", err)
	}
	return r.schema.Validate(v)
}
