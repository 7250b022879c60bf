package guide_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// The translated name of a place is found by what the workbooks call it as well, for whoever has it from a drawing or from a colleague.
func TestSearchKnowsPlacesByTheWorkbooksNames(t *testing.T) {
	s := newSample()
	position := s.Cat.Positions[0].Name
	speaking(s, func(text string) string {
		if text == position {
			return "Zz " + strings.Repeat("q", len(text))
		}
		return ""
	}, "fr")
	pages := s.pages(t, guide.Options{})
	index := ""
	for name, text := range pages {
		if strings.HasPrefix(name, "fr/search") {
			index += text
		}
	}
	require.NotEmpty(t, index)
	assert.Contains(t, index, `["Zz `+strings.Repeat("q", len(position))+`","at-`)
	assert.Contains(t, index, `"`+position+`"]`)

	own := pages["search-index.js"]
	assert.Contains(t, own, `["`+position+`","at-`)
	assert.NotContains(t, own, "Zz ")
}
