package word

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestFold(t *testing.T) {
	for text, want := range map[string]string{
		"":                               "",
		" \t\n":                          "",
		"Front Damper":                   "front damper",
		"  FRONT\u00a0\u2009 damper\r\n": "front damper",
		"Essieu ARRIÈRE":                 "essieu arrière",
		"ΆΞΟΝΑΣ":                         "άξονασ",
		"n/a":                            "n/a",
	} {
		assert.Equal(t, want, Fold(text), text)
	}
}

func TestFoldSettles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "s")
		f := Fold(s)
		if Fold(f) != f || Fold(" "+s+"\u00a0") != f || f != strings.TrimSpace(f) || strings.Contains(f, "  ") {
			t.Fatalf("%q folds to %q", s, f)
		}
	})
}

// strings.EqualFold tells the same, in a way of its own.
func TestFoldIsEqualFold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.StringOf(rapid.RuneFrom(nil, unicode.Letter)).Draw(t, "a")
		b := strings.Map(func(r rune) rune {
			for range rapid.IntRange(0, 2).Draw(t, "steps") {
				r = unicode.SimpleFold(r)
			}
			return r
		}, a)
		if !strings.EqualFold(a, b) || Fold(a) != Fold(b) {
			t.Fatalf("%q and %q fold to %q and %q", a, b, Fold(a), Fold(b))
		}
	})
	assert.Equal(t, Fold("ΆΞΟΝΑΣ"), Fold("άξονας"))
}

func TestNearest(t *testing.T) {
	kinds := []string{"settings", "platforms", "parts", "kits", "fitment"}
	tests := []struct {
		s     string
		names []string
		want  string
	}{
		{"partz", kinds, "parts"},
		{"PART", kinds, "parts"},
		{"fitmnet", kinds, "fitment"}, // two letters swapped are one slip
		{"fit", kinds, ""},            // too far to be a slip
		{"plattforms", kinds, "platforms"},
		{"", kinds, ""},
		{"parts", nil, ""},
		{"abd", []string{"abe", "abc"}, "abe"}, // the first of equals
		{"abd", []string{"abe", "abd"}, "abd"},
		{"ic", []string{"in", "mm"}, "in"},
		{"x", []string{"y"}, ""}, // nothing of it would be left
		{"", []string{"y"}, ""},
		{"Y", []string{"y"}, "y"},
		{"arrière", []string{"arriere"}, "arriere"},
		{"Front  damper", []string{"front dampr"}, "front dampr"},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, Nearest(tt.s, tt.names), tt.s)
	}
}

func TestDidYouMean(t *testing.T) {
	assert.Equal(t, " (did you mean Parts?)", DidYouMean("partz", []string{"Kits", "Parts"}))
	assert.Empty(t, DidYouMean("nonsense", []string{"Kits", "Parts"}))
}

// slips is the distance by its definition: the fewest single steps, where a pair that
// is swapped is not touched again.
func slips(a, b []rune) int {
	switch {
	case len(a) == 0:
		return len(b)
	case len(b) == 0:
		return len(a)
	}
	change := 1
	if a[0] == b[0] {
		change = 0
	}
	least := min(1+slips(a[1:], b), 1+slips(a, b[1:]), change+slips(a[1:], b[1:]))
	if len(a) > 1 && len(b) > 1 && a[0] == b[1] && a[1] == b[0] {
		least = min(least, 1+slips(a[2:], b[2:]))
	}
	return least
}

func TestDistance(t *testing.T) {
	words := rapid.StringOfN(rapid.SampledFrom([]rune("abcé")), 0, 6, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b, limit := words.Draw(t, "a"), words.Draw(t, "b"), rapid.IntRange(0, 8).Draw(t, "limit")
		want := min(slips([]rune(a), []rune(b)), limit+1)
		if got := distance(a, b, limit); got != want {
			t.Fatalf("%q to %q is %d, not %d", a, b, want, got)
		}
		if near := Nearest(a, []string{b}); near != "" {
			if n := utf8.RuneCountInString(a); a != b && slips([]rune(a), []rune(b)) > max(1, n/3) {
				t.Fatalf("%q is not near %q", b, a)
			}
		}
	})
}
