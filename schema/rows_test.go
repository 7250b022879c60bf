package schema

import (
	"encoding/json"
	"io/fs"
	"path"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v5"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEveryFileIsASchema(t *testing.T) {
	meta, err := jsonschema.Compile("https://json-schema.org/draft/2020-12/schema")
	require.NoError(t, err)
	count := map[string]int{}
	require.NoError(t, fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		count[path.Dir(name)]++
		doc, err := document(embedded(name))
		require.NoError(t, err, name)
		assert.NoError(t, meta.Validate(doc), name)
		top := doc.(map[string]any)
		assert.Equal(t, "https://json-schema.org/draft/2020-12/schema", top["$schema"], name)
		assert.Equal(t, path.Base(name), path.Base(top["$id"].(string)), name)
		return nil
	}))
	assert.Equal(t, len(Kinds())+1, count["rows"], "a schema for each kind of sheet, and for those of fleets")
	assert.Greater(t, count["published"], 6, "one for each published file and each answer, as a test of the program holds")
}

// The columns in bold type of the format page, by kind of sheet.
func TestRequiredColumns(t *testing.T) {
	want := map[string]string{
		"settings": "Setting, Value", "platforms": "Platform, Years", "traits": "Trait, Value",
		"vehicles": "Platform", "breaks": "Platform, Trait, Value", "positions": "Position", "parts": "Part", "kits": "Kit, Part",
		"references": "Number, Part", "sizes": "System, Nominal", "fitment": "Platform", "compatibility": "Effect, Reason",
		"facts": "Platform", "limits": "Limit, Left, Must be, Right", "calculated": "Name, Formula", "cautions": "Caution, Text",
		"complaints": "Complaint, How it helps", "inspections": "What to look at", "translations": "Text",
		"accepted": "Finding, Reason, By", "layouts": "Sheet, Word, Where, As",
	}
	for _, kind := range Kinds() {
		var required []string
		for _, c := range Columns(kind) {
			if c.Required {
				required = append(required, c.Name)
			}
		}
		assert.Equal(t, want[kind], strings.Join(required, ", "), kind)
	}
	assert.Len(t, want, len(Kinds()))
	assert.Nil(t, Columns("nothing"))
}

func TestRowsAreOfKinds(t *testing.T) {
	for _, kind := range Kinds() {
		var doc struct {
			Properties map[string]json.RawMessage
			Required   []string
		}
		require.NoError(t, json.Unmarshal(rowFile(kind), &doc))
		assert.Len(t, Columns(kind), len(doc.Properties), kind)
		for _, name := range doc.Required {
			c, _ := Find(kind, name)
			assert.Equal(t, name, c.Name, kind)
		}
	}
	names, err := fs.Glob(files, "rows/*")
	require.NoError(t, err)
	for _, name := range names {
		assert.Contains(t, append(Kinds(), Fleet), strings.TrimSuffix(path.Base(name), ".schema.json"))
	}
}
