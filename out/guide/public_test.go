package guide_test

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
	"ferrule/sheets/cell"
)

// Every cell that a value knows, and every text for the staff, is marked; no page may
// show the mark.
func TestNothingInternalIsPublished(t *testing.T) {
	s := newSample()
	places, texts := 0, 0
	fields(s, func(_ reflect.Type, _ string, v reflect.Value) {
		if v.Type() == reflect.TypeFor[cell.Place]() {
			v.Set(reflect.ValueOf(cell.Place{Sheet: &cell.Sheet{File: secret, Name: secret}, Pos: cell.Pos{Row: 987654, Col: 1}}))
			places++
		}
		if v.Kind() == reflect.String && v.String() == secret {
			texts++
		}
	})
	require.Greater(t, places, 30, "the walk does not reach the catalogue")
	require.Greater(t, texts, 20, "the sample has lost its secrets")
	for name, page := range s.pages(t, guide.Options{}) {
		assert.NotContains(t, page, secret, name)
		assert.NotContains(t, page, "987654", name)
		assert.NotContains(t, page, "4321987", "%s: on the road", name)
		assert.NotContains(t, strings.ToLower(page), "configuration", name)
		if strings.HasPrefix(name, "platforms/") {
			assert.NotContains(t, page, "WX-666", "%s: a part of cases that are not settled", name)
		}
	}
}
