package staff_test

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/release/staff"
)

// leftOut lists what comparing needs nothing of, so that reading passes over it: whole lists,
// and fields of the elements of others.
func leftOut() []string {
	return []string{
		"year_how_to_tell", "year_also_called", "sizes", "facts", "calculated",
		"platforms.how_to_tell", "platforms.summary", "platforms.picture", "platforms.also_called",
		"traits.question", "traits.how_to_tell", "traits.effort", "traits.picture", "traits.values.how_to_tell", "traits.values.picture", "traits.also_called", "traits.values.also_called",
		"vehicles.note",
		"positions.axle", "positions.side", "positions.pair", "positions.summary", "positions.coverage", "positions.picture",
		"parts.summary", "parts.picture", "parts.status_cell", "parts.replaced_by_cell", "parts.family_cell",
		"parts.properties.unit", "parts.properties.value", "parts.properties.calculated",
		"references.note",
		"fitments.notes", "fitments.cells.notes",
		"compatibility.part_cell", "compatibility.with_cell",
		"accepted.until_cell",
	}
}

// TestWhatIsReadIsWrittenAgain holds that every field of catalogue.json comes back as it was
// written, apart from those that reading leaves out on purpose.
func TestWhatIsReadIsWrittenAgain(t *testing.T) {
	folder := writtenFolder(t)
	got, err := staff.Read(folder)
	require.NoError(t, err)
	var again bytes.Buffer
	require.NoError(t, staff.Catalogue(&again, got.Catalogue, guideFile))
	want := folder["catalogue.json"].Data
	kept, left := without(t, want)
	same, _ := without(t, again.Bytes())
	assert.Equal(t, kept, same)
	assert.ElementsMatch(t, leftOut(), left, "the sample has every field that is left out")

	folder["catalogue.json"] = &fstest.MapFile{Data: again.Bytes()}
	twice, err := staff.Read(folder)
	require.NoError(t, err)
	assert.Equal(t, got, twice)
}

// TestFindingsComeBack holds the same of findings.json, of which examples and what is known are
// left out: a build makes nothing known.
func TestFindingsComeBack(t *testing.T) {
	folder := writtenFolder(t)
	got, err := staff.Read(folder)
	require.NoError(t, err)
	var again bytes.Buffer
	require.NoError(t, staff.Findings(&again, got.Findings, ""))
	var want, same any
	require.NoError(t, json.Unmarshal(folder["findings.json"].Data, &want))
	require.NoError(t, json.Unmarshal(again.Bytes(), &same))
	for _, f := range want.(map[string]any)["findings"].([]any) {
		delete(f.(map[string]any), "example")
	}
	assert.Equal(t, want, same)
}

// without gives a file without what is left out, and what of that it had.
func without(t *testing.T, text []byte) (any, []string) {
	t.Helper()
	var v any
	require.NoError(t, json.Unmarshal(text, &v))
	had := map[string]bool{}
	strip(v, "", had)
	return v, slices.Sorted(maps.Keys(had))
}

// strip takes what is left out from a value, which stands at a path, and notes its paths.
func strip(v any, path string, had map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for name, field := range v {
			at := strings.TrimPrefix(path+"."+name, ".")
			if slices.Contains(leftOut(), at) {
				had[at] = true
				delete(v, name)
				continue
			}
			strip(field, at, had)
		}
	case []any:
		for _, element := range v {
			strip(element, path, had)
		}
	}
}
