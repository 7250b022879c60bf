package data_test

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/release/staff"
	"ferrule/compiler/release/staff/sample"
	"ferrule/out/data"
	"ferrule/schema"
)

// files are all files of the contract, with the schema that each must meet.
func files(s *sampled) []file {
	return []file{
		{"findings.schema.json", func(w io.Writer) error { return staff.Findings(w, s.Findings, "") }},
		{"coverage.schema.json", func(w io.Writer) error { return data.Coverage(w, []*decide.Packed{decide.Pack(s.Guide)}) }},
		{"catalogue.schema.json", func(w io.Writer) error { return data.PublicCatalogue(w, s.Catalogue, s.book()) }},
		{"part.schema.json", func(w io.Writer) error { return s.writePart(w, 0) }},
		{"guide.schema.json", func(w io.Writer) error { return data.PublicGuide(w, s.Catalogue, s.Guide) }},
		{"staff-catalogue.schema.json", func(w io.Writer) error { return staff.Catalogue(w, s.Catalogue, s.book().PlatformData) }},
		{"staff-guide.schema.json", func(w io.Writer) error { return staff.Guide(w, s.Catalogue, s.Guide) }},
	}
}

type file struct {
	schema string
	write  func(io.Writer) error
}

func (f file) bytes(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, f.write(&b))
	return b.Bytes()
}

func TestEveryFileMeetsItsSchema(t *testing.T) {
	for _, f := range files(newSample()) {
		assert.NoError(t, schema.ValidatePublished(f.schema, f.bytes(t)), f.schema)
	}
}

func TestSameCatalogueGivesSameBytes(t *testing.T) {
	first, second := files(newSample()), files(newSample())
	for i, f := range first {
		assert.Equal(t, string(f.bytes(t)), string(second[i].bytes(t)), f.schema)
	}
}

func TestFilesAreIndentedAndEndWithALineBreak(t *testing.T) {
	for _, f := range files(newSample()) {
		b := f.bytes(t)
		require.True(t, json.Valid(b), f.schema)
		var again bytes.Buffer
		require.NoError(t, json.Indent(&again, b, "", "  "))
		assert.Equal(t, again.String(), string(b), f.schema)
		assert.True(t, bytes.HasSuffix(b, []byte("}\n")), f.schema)
		assert.NotContains(t, string(b), `\u003c`, f.schema)
	}
}

// The sample has a secret in every text, file and sheet that is not public.
func TestPublicFilesTellNothingInternal(t *testing.T) {
	s := newSample()
	for _, f := range files(s)[2:5] {
		text := string(f.bytes(t))
		assert.NotContains(t, text, sample.Secret, f.schema)
		assert.NotContains(t, text, `"cell`, f.schema)
	}
	for _, f := range files(s)[5:] {
		assert.Contains(t, string(f.bytes(t)), sample.Secret, f.schema)
	}
}

func TestTraitsStandAsDeclared(t *testing.T) {
	for _, f := range files(newSample()) {
		text := string(f.bytes(t))
		if z, a := strings.Index(text, `"Z suspension"`), strings.Index(text, `"A line"`); z >= 0 && a >= 0 {
			assert.Less(t, z, a, f.schema)
		}
	}
}

func TestFilesAreNamed(t *testing.T) {
	s := newSample()
	var b bytes.Buffer
	require.NoError(t, data.PublicCatalogue(&b, s.Catalogue, s.book()))
	for _, name := range []string{"guides/H7.json", "guides/H-9.json", "parts/qx-1.json", "parts/k-1.json"} {
		assert.Contains(t, b.String(), `"file": "`+name+`"`)
	}
}

// Every part, whatever is known of it, has a file that meets the schema.
func TestParts(t *testing.T) {
	s := newSample()
	for i, p := range s.Catalogue.Parts {
		var b bytes.Buffer
		require.NoError(t, s.writePart(&b, i))
		assert.NoError(t, schema.ValidatePublished("part.schema.json", b.Bytes()), p.Number)
	}
	var got struct {
		Page              string
		Replaces          []string
		References, Kits  []map[string]any
		Fits              []map[string]any
		Contents, Missing []map[string]any
	}
	var b bytes.Buffer
	require.NoError(t, s.writePart(&b, 0))
	require.NoError(t, json.Unmarshal(b.Bytes(), &got))
	assert.Equal(t, "parts/qx-1.html", got.Page)
	assert.Equal(t, []string{"QX-0"}, got.Replaces)
	assert.Equal(t, []map[string]any{{"number": "77", "source": "Brell", "kind": "former"}}, got.References)
	assert.Equal(t, []map[string]any{{"kit": "K-1", "quantity": 2.0}}, got.Kits)
	require.Len(t, got.Fits, 2, "by itself, and in the kit beside it")
	assert.Equal(t, map[string]any{"platform": "H7", "guide": "guides/H7.json", "position": "Front damper", "choice": 1.0, "of": 2.0, "quantity": 2.0,
		"where": []any{map[string]any{"years": []any{[]any{1998.0, 1999.0}}, "traits": map[string]any{"Z suspension": []any{"Air beam", nil}}}}}, got.Fits[0])
	assert.Equal(t, "K-1", got.Fits[1]["kit"])
	assert.Equal(t, 6.0, got.Fits[1]["quantity"])
}
