package glyph_test

import (
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"ferrule/compiler/intake/table/glyph"
)

func TestLook(t *testing.T) {
	name, prose := glyph.Text{Name: true}, glyph.Text{}
	russian := glyph.Text{Name: true, Native: func(a *unicode.RangeTable) bool { return a == unicode.Cyrillic }}
	for _, c := range []struct {
		in      glyph.Text
		text    string
		what    string // "" for nothing
		instead string // "" for the text itself
	}{
		{name, "HD-25", "", ""},
		{name, "Ø20 Stoßdämpfer ½ Ω µm Δp", "", ""},
		{name, "НD-25", `"Н" \(U\+041D\).*"H"`, "HD-25"},
		{name, "АВ-25", `U\+0410`, "AB-25"}, // no letter in it is Latin
		{name, "ΑΒ-25", `U\+0391`, "AB-25"},
		{name, "2 х HD-25", `U\+0445`, "2 x HD-25"},
		{russian, "АВ-25", "", ""},
		{russian, "АB-25", `U\+0410`, "AB-25"}, // the second letter is Latin
		{name, "Рама", "", ""},                 // м is like no Latin letter
		{name, "Dж-2", "", ""},                 // nobody takes it for Latin
		{name, "kΩ", "", ""},
		{prose, "Рама, 3х и СОТА", "", ""},
		{prose, "the НD damper", `U\+041D`, "the HD damper"},
		{name, "HD\u200b-25", `U\+200B \(a space without width\)`, "HD-25"},
		{name, "\ufeffHD-25", `U\+FEFF \(a byte order mark\)`, "HD-25"},
		{name, "Dam\u00adper", `U\+00AD \(a soft hyphen\)`, "Damper"},
		{name, "HD-25\u200e", `U\+200E`, "HD-25"},
		{name, "HD\x01-25", `U\+0001`, "HD-25"},
		{name, "HD\u00a0-25\n\t", "", ""}, // white space is collapsed before names are compared
		{prose, "Dam\u00adper ⚠\ufe0f", "", ""},
		{name, "ＨＤ－２５", `"Ｈ" \(U\+FF28\).*"H" in full width`, "HD-25"},
		{prose, "ＨＤ", "", ""},
		{name, "Stoßda\u0308mpfer", "accent", "Stoßdämpfer"},
		{prose, "Stoßda\u0308mpfer", "", ""},
		{name, "О\u200bК-1", `U\+200B`, "OK-1"}, // all of it is put right
		{name, "HD–25 “firm”", "", ""},          // matters only where it breaks a match
	} {
		what, instead := c.in.Look(c.text)
		if c.what == "" {
			assert.Empty(t, what, "%q", c.text)
			continue
		}
		assert.Regexp(t, c.what, what, "%q", c.text)
		assert.Equal(t, c.instead, instead, "%q", c.text)
	}
}

func TestNatives(t *testing.T) {
	for text, want := range map[string]map[*unicode.RangeTable]bool{
		"Рама": {unicode.Cyrillic: true}, "СОТА": {}, "frame": {}, "Δ": {unicode.Greek: true},
		"Рама Δ": {unicode.Cyrillic: true, unicode.Greek: true},
	} {
		got := map[*unicode.RangeTable]bool{}
		glyph.Natives(text, got)
		assert.Equal(t, want, got, text)
	}
}

func TestDifference(t *testing.T) {
	for _, c := range []struct{ here, there, want string }{
		{"HD–25", "HD-25", "U+2013 stands here and U+002D there"},
		{"HD-25", "HD‑25", "U+002D stands here and U+2011 there"},
		{"Harrow’s", "Harrow's", "U+2019 stands here and U+0027 there"},
		{"НD-25", "HD-25", "U+041D stands here and U+0048 there"},
		{"HD-25\u200b", "HD-25", "U+200B stands here and nothing there"},
		{"HD-2", "HD-25", ""},
		{"HD-25", " HD-25", ""},
		{"HD\u00a0-25", "HD -25", ""},
	} {
		assert.Equal(t, c.want, glyph.Difference(c.here, c.there), "%q %q", c.here, c.there)
	}
}

// TestInsteadIsClean holds that what is to be typed instead needs no second look.
func TestInsteadIsClean(t *testing.T) {
	letters := []rune("HD-25 AbНОСрх\u200b\u00ad\ufeffＨ２\u0308äΑΒожΩ\u00a0–’\x01")
	rapid.Check(t, func(t *rapid.T) {
		s := string(rapid.SliceOfN(rapid.SampledFrom(letters), 0, 12).Draw(t, "text"))
		text := glyph.Text{Name: rapid.Bool().Draw(t, "name")}
		what, instead := text.Look(s)
		if what == "" {
			return
		}
		assert.NotEqual(t, s, instead)
		again, _ := text.Look(instead)
		assert.Empty(t, again, "%q became %q", s, instead)
		if text.Name {
			assert.Equal(t, glyph.Skeleton(s), glyph.Skeleton(instead))
		}
	})
}
