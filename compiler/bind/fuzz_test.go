package bind

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// FuzzFits holds of any fitment cell that it says something or a finding is told at it, and
// that what was read in silence reads to the same once it is written again.
func FuzzFits(f *testing.F) {
	for _, text := range []string{
		"", "-", "D-1", "3 x D-1 + d-2 or K-1", "none 6", "none: (why", "none))", "with Drive damper", "with it + D-1", "with nobody",
		"D-1, D-2", "D-1\nD-2", "A, B or C+2", "D-1 or", "+", "0 x D-1", "2 x ask", "tbd - D-1", "D-9", "D-1 D-2", "D-1 (left)", "L or R or", "\xff",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		b, told := knowing(awkward[:]...)
		at := cell.Place{Sheet: &cell.Sheet{File: "a.xlsx", Name: "Fitment"}, Pos: cell.Pos{Row: 2, Col: 3}}
		fits := b.fits(text, at)
		for _, said := range *told {
			require.NotEmpty(t, said.Message)
			require.Len(t, said.Cells, 1)
			require.Equal(t, at, said.Cells[0].Place)
		}
		require.Equal(t, fits != nil && sound(fits), len(*told) == 0, "%q: it is read, or told", text)
		if len(*told) > 0 {
			return
		}
		require.False(t, fits.Outcome == model.Fitted && fits.With == nil && len(fits.Alternatives) == 0, "%q says nothing", text)
		if written := strings.NewReplacer("[", "", "]", "").Replace(printed(fits)); !strings.ContainsAny(text, "[]") && !open(fits.Text) {
			require.Equal(t, printed(fits), printed(b.fits(written, at)), "%q, written again as %q", text, written)
			require.Empty(t, *told, "%q", written)
		}
	})
}

// open tells whether a reason ends in a bracket that nothing opened, which is cut where it is
// read again.
func open(reason string) bool {
	return strings.HasSuffix(reason, ")") && strings.Count(reason, ")") > strings.Count(reason, "(")
}

// FuzzCondition holds of any cell under a trait that it is any, some values, or refused with a
// reason, and that what it says can be written as cells that together say the same.
func FuzzCondition(f *testing.F) {
	for _, text := range []string{
		"", "any", "n/a", "not", "not n/a", "Low or High", "from low to high", "to Low, from High", "not not Low", "from High to Low", "Low, any",
		"1/2 in", "12.7 mm", "from 9.525 mm", "not 1/4\"", "1/2", "1/2 in (12.7 mm)", "to 3/8 in or n/a", "0,5 in", "\xff", "İ",
	} {
		for kind := range byte(3) {
			f.Add(kind, text)
		}
	}
	f.Fuzz(func(t *testing.T, kind byte, text string) {
		k := model.TraitKind(kind % 3)
		values := map[model.TraitKind][]string{
			model.Choice: {"Low", "High", "not Low", "any two", "A, B", "İ"}, model.Ordered: {"Low", "Mid", "High", "from Low", "İ"},
			model.Size: {"1/2 in", "1/4 in", "1/2 in hose", "3/8 in", "8x1 mm"},
		}[k]
		require.NotEmpty(t, values, "the kinds of traits whose values are listed")
		b, trait := declared(t, k, values...)
		c := b.condition(trait, text)
		bad := c.why != "" || c.name != ""
		require.Equal(t, bad, c.code != "", "%q: what is refused has a code", text)
		require.Equal(t, bad || c.any, c.set.IsEmpty(), "%q: a condition is any, a set or refused", text)
		if bad || c.any || c.set.Not(len(values)+1).IsEmpty() {
			return
		}
		back := c.set.And(nil)
		for _, written := range (&Words{b: b}).Cells(model.TraitSet{Trait: trait, Values: c.set}) {
			again := b.condition(trait, written)
			require.Empty(t, again.why+again.name, "%q, written as %q", text, written)
			back = back.Or(again.set)
		}
		require.True(t, back.Equal(c.set), "%q: %s, written again %s", text, c.set, back)
	})
}

// FuzzSizes holds that a size is found under a trait of sizes by its magnitude however it is
// written: with the name of the value that it finds the cell says the same.
func FuzzSizes(f *testing.F) {
	for _, text := range []string{"1/2 in", "½\"", "0.5 in", "12.7 mm", "12.7 mm hose", "8 x 1 mm", "8x1mm", "1/2 in (12.7 mm)", "0", "-1/2 in", "1e9999 in", "1/0 in", "in", "٣ mm"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		b, trait := declared(t, model.Size, "1/2 in", "1/4 in", "1/2 in hose", "3/8 in", "8x1 mm")
		i, ok := b.value(trait, text)
		c := b.condition(trait, text)
		if !ok {
			require.True(t, c.any || c.why+c.name != "" || grammatical(text), "%q is no size, and says something", text)
			return
		}
		require.Empty(t, c.why+c.name, "%q", text)
		named := b.condition(trait, trait.Values[i].Name)
		require.True(t, named.set.Equal(c.set), "%q: %s, its value %q: %s", text, c.set, trait.Values[i].Name, named.set)
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
