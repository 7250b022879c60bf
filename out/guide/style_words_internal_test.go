package guide

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/tongue"
)

// A style sheet speaks no language: its words are properties that the pages' language sets.
func TestStyleHasNoWords(t *testing.T) {
	style, err := static.ReadFile("style.css")
	require.NoError(t, err)
	said := regexp.MustCompile(`content:([^;}]*)`).FindAllStringSubmatch(string(style), -1)
	require.Greater(t, len(said), 10)
	for _, m := range said {
		assert.NotRegexp(t, `"[^"]*[A-Za-z]{2}[^"]*"`, m[1])
	}
	words := string(styleWords(nil, false, true))
	used := regexp.MustCompile(`var\((--(?:and|line-[a-z]+|colon|semicolon|query))\)`).FindAllStringSubmatch(string(style), -1)
	require.NotEmpty(t, used)
	for _, m := range used {
		assert.Contains(t, words, m[1]+":", "nothing says it")
	}
	for _, m := range regexp.MustCompile(`[{;](--[a-z-]+):`).FindAllStringSubmatch(words, -1) {
		assert.NotContains(t, string(style), m[1]+": ", "it is a colour or a font as well")
	}
}

func TestStyleWords(t *testing.T) {
	french, ok := tongue.Of("fr")
	require.True(t, ok)
	got := string(styleWords([]*tongue.Tongue{tongue.English(), french}, false, true))
	assert.Contains(t, got, `:root{--and:"and ";--line-begin:"Line ";`)
	assert.Contains(t, got, `:root:lang(fr){--and:"et ";--line-begin:"Ligne ";`)
	assert.Contains(t, got, `:root:lang(fr) body.draft{page:draft-fr}`)
	assert.Equal(t, 1, strings.Count(got, "Draft: not for use on vehicles"))
	inFrame := string(styleWords([]*tongue.Tongue{french}, true, false))
	assert.Contains(t, inFrame, `.fitment:lang(fr){--and:"et "`)
	assert.NotContains(t, inFrame, "@page")
}

func TestCSSText(t *testing.T) {
	assert.Equal(t, `"a \22 \5c \3c /style>\a é"`, cssText("a \"\\</style>\né"))
}
