package slug_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/out/slug"
)

func TestNames(t *testing.T) {
	for _, c := range []struct {
		what string
		in   []string
		want []string // a pattern each
	}{
		{"safe names stay", []string{"H7", "kb-12--x", "90210"}, []string{"H7", "kb-12--x", "90210"}},
		{"signs become one dash", []string{" Heron 7 / rear ", "½ in", "Größe"}, []string{"Heron-7-rear", "1-2-in", "Gro-e"}},
		{"dashes at the ends go", []string{"-A-", "../../etc/passwd", ". ."}, []string{"A", "etc-passwd", "[0-9a-f]{8}"}},
		{"no letters at all", []string{"", "ретро"}, []string{"[0-9a-f]{8}", "[0-9a-f]{8}"}},
		{"reserved names", []string{"con", "NUL", "Com1", "LPT9", "index", "com", "cone"}, []string{
			"con-[0-9a-f]{8}", "NUL-[0-9a-f]{8}", "Com1-[0-9a-f]{8}", "LPT9-[0-9a-f]{8}", "index-[0-9a-f]{8}", "com", "cone"}},
		{"a safe name wins", []string{"a b", "A-B"}, []string{"a-b-[0-9a-f]{8}", "A-B"}},
		{"two that are not safe", []string{"a/b", "A b"}, []string{"a-b-[0-9a-f]{8}", "A-b-[0-9a-f]{8}"}},
		{"case alone", []string{"h7", "H7"}, []string{"h7", "H7-[0-9a-f]{8}"}},
		{"the same twice", []string{"h7", "h7", "h7"}, []string{"h7", "h7-[0-9a-f]{8}", "h7-[0-9a-f]{8}"}},
		{"long", []string{strings.Repeat("x", 80), strings.Repeat("y", 81)}, []string{"x{80}", "y{71}-[0-9a-f]{8}"}},
	} {
		got := slug.Names(c.in)
		require.Len(t, got, len(c.want), c.what)
		for i, pattern := range c.want {
			assert.Regexp(t, "^"+pattern+"$", got[i], "%s: %q", c.what, c.in[i])
		}
	}
}

// The properties hold for any names at all; names are drawn so that collisions are
// frequent.
func TestNamesAreSafeAndUnique(t *testing.T) {
	valid := regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9-]*$`)
	name := rapid.OneOf(rapid.String(), rapid.StringMatching(`[aA]?[ /-]?[bB]?(-[0-9a-f]{8})?`),
		rapid.SampledFrom([]string{"con", "CON", "index", "aux", "a", "A"}))
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.SliceOfN(name, 0, 12).Draw(t, "names")
		out := slug.Names(in)
		require.Len(t, out, len(in))
		seen := map[string]bool{}
		for _, file := range out {
			require.Regexp(t, valid, file)
			require.LessOrEqual(t, len(file), slug.Longest)
			low := strings.ToLower(file)
			require.False(t, seen[low], "%q is used twice", file)
			require.NotContains(t, []string{"con", "index", "aux"}, low)
			seen[low] = true
		}
	})
}

// Distinct names (case folded, as a catalogue has them) get the same file whatever
// their order.
func TestNamesDoNotDependOnOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.SliceOfNDistinct(rapid.StringMatching(`[ab]?[ /-]?[ab]?(-[0-9a-f]{8})?`), 0, 12,
			rapid.ID[string]).Draw(t, "names")
		out := slug.Names(in)
		back := slices.Clone(in)
		slices.Reverse(back)
		again := slug.Names(back)
		slices.Reverse(again)
		require.Equal(t, out, again)
	})
}

// What had a file name keeps it, also where a new name would have a better claim, and
// what cannot be a file name is never taken over.
func TestKeep(t *testing.T) {
	old := []string{"a b", "c"}
	earlier := map[string]string{}
	for i, file := range slug.Names(old) {
		earlier[old[i]] = file
	}
	require.Equal(t, map[string]string{"a b": "a-b", "c": "c"}, earlier)
	got := slug.Keep([]string{"a-b", "c", "a b", "a/b"}, earlier)
	require.Regexp(t, `^a-b-[0-9a-f]{8}$`, got[0])
	require.Equal(t, []string{"c", "a-b"}, got[1:3])
	require.Regexp(t, `^a-b-[0-9a-f]{8}$`, got[3])
	require.NotEqual(t, got[0], got[3])

	for _, wrong := range []string{"../x", "", "con", "a b", strings.Repeat("x", 81)} {
		require.Equal(t, []string{"c"}, slug.Keep([]string{"c"}, map[string]string{"c": wrong}), "%q", wrong)
	}
}
