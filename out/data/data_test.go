package data_test

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/decide"
	"ferrule/out/data"
	"ferrule/schema"
)

// files are all files of the contract, with the schema that each must meet.
func files(s *sample) []file {
	return []file{
		{"findings.schema.json", func(w io.Writer) error { return data.Findings(w, s.findings, "") }},
		{"coverage.schema.json", func(w io.Writer) error { return data.Coverage(w, []*decide.Guide{s.guide}) }},
		{"catalogue.schema.json", func(w io.Writer) error { return data.PublicCatalogue(w, s.cat) }},
		{"guide.schema.json", func(w io.Writer) error { return data.PublicGuide(w, s.cat, s.guide) }},
		{"staff-catalogue.schema.json", func(w io.Writer) error { return data.StaffCatalogue(w, s.cat) }},
		{"staff-guide.schema.json", func(w io.Writer) error { return data.StaffGuide(w, s.cat, s.guide) }},
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
	for _, f := range files(s)[2:4] {
		text := string(f.bytes(t))
		assert.NotContains(t, text, secret, f.schema)
		assert.NotContains(t, text, `"cell`, f.schema)
	}
	for _, f := range files(s)[4:] {
		assert.Contains(t, string(f.bytes(t)), secret, f.schema)
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

func TestGuideFiles(t *testing.T) {
	s := newSample()
	got := data.GuideFiles(s.cat)
	require.Len(t, got, 2)
	assert.Equal(t, []string{"guides/H7.json", "guides/H-9.json"}, got)
}
