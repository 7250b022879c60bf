package guide_test

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

var colour = regexp.MustCompile(`--([a-z-]+):#([0-9a-f]{6})[;}]`)

// luminance and contrast as WCAG 2.2 defines them ('relative luminance', 'contrast
// ratio').
func luminance(t *testing.T, hex string) float64 {
	var sum float64
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		require.NoError(t, err)
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

func contrast(t *testing.T, a, b string) float64 {
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func TestContrastItself(t *testing.T) {
	assert.InDelta(t, 21, contrast(t, "000000", "ffffff"), 1e-9)
	assert.InDelta(t, 4.54, contrast(t, "767676", "ffffff"), 0.01) // the usual example of just enough, from memory
}

// WCAG 2.2: text 4.5 (1.4.3), parts of the interface 3 (1.4.11).
func TestContrast(t *testing.T) {
	css := assetText(t, newSample().pages(t, guide.Options{}), "style.css")
	light, dark, found := strings.Cut(css, "prefers-color-scheme:dark")
	require.True(t, found)
	dark, _, _ = strings.Cut(dark, "*,::before")
	assert.Regexp(t, `^\)\{:root\{(--[a-z-]+:#[0-9a-f]{6}[;}])+\}$`, dark, "in the dark only colours are others")
	assert.Equal(t, 1, strings.Count(css, "prefers-color-scheme"))
	for scheme, text := range map[string]string{"light": light, "dark": dark} {
		at := map[string]string{}
		for _, m := range colour.FindAllStringSubmatch(text, -1) {
			at[m[1]] = m[2]
		}
		require.Len(t, at, 10, scheme)
		for _, pair := range []struct {
			front, back string
			least       float64
		}{
			{"ink", "paper", 7}, {"ink", "band", 7}, {"quiet", "paper", 7}, {"quiet", "band", 4.5},
			{"accent", "paper", 4.5}, {"accent", "band", 4.5}, {"on-accent", "accent", 4.5},
			{"danger", "paper", 4.5}, {"danger", "band", 4.5}, {"warning", "paper", 4.5}, {"line", "paper", 3}, {"line", "band", 3},
		} {
			got := contrast(t, at[pair.front], at[pair.back])
			assert.GreaterOrEqual(t, got, pair.least, "%s: %s on %s", scheme, pair.front, pair.back)
		}
	}
	source, err := os.ReadFile("style.css") // where a colour has the name that it was given
	require.NoError(t, err)
	_, rest, found := strings.Cut(string(source), "*, ::before")
	require.True(t, found)
	assert.NotRegexp(t, `#[0-9a-fA-F]{3,8}\b|rgba?\(|hsla?\(`, rest, "a colour outside the two lists")
	assert.NotRegexp(t, `url\(|@import|https?:`, css, "the style sheet asks for something else")
}
