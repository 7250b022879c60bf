package lexicon

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
)

// FuzzSizes holds that a size is found under a trait of sizes by its magnitude however it is
// written: with the name of the value that it finds the cell says the same.
func FuzzSizes(f *testing.F) {
	for _, text := range []string{"1/2 in", "½\"", "0.5 in", "12.7 mm", "12.7 mm hose", "8 x 1 mm", "8x1mm", "1/2 in (12.7 mm)", "0", "-1/2 in", "1e9999 in", "1/0 in", "in", "٣ mm"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		x, trait := declared(t, model.Size, "1/2 in", "1/4 in", "1/2 in hose", "3/8 in", "8x1 mm")
		i, ok := x.value(trait, text)
		c := x.Condition(trait, text)
		if !ok {
			require.True(t, c.Any || !c.Reads() || grammatical(text), "%q is no size, and says something", text)
			return
		}
		require.Empty(t, c.Fault, "%q", text)
		named := x.Condition(trait, trait.Values[i].Name)
		require.True(t, named.Set.Equal(c.Set), "%q: %s, its value %q: %s", text, c.Set, trait.Values[i].Name, named.Set)
	})
}

// grammatical tells of a cell that is more than a name: a list, a stretch, not or n/a.
func grammatical(text string) bool {
	words := " " + strings.ToLower(strings.Join(strings.Fields(text), " ")) + " "
	for _, mark := range []string{",", ";", " or ", " not ", " from ", " to ", " n/a "} {
		if strings.Contains(words, mark) {
			return true
		}
	}
	return strings.ContainsAny(strings.TrimSpace(text), "\n\r")
}
