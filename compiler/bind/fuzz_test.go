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
		c := b.fits(text, at)
		fits := c.Fits
		for _, said := range *told {
			require.NotEmpty(t, said.Message)
			require.Len(t, said.Cells, 1)
			require.Equal(t, at, said.Cells[0].Place)
		}
		require.Equal(t, c.Sound(), len(*told) == 0, "%q: it is read, or told", text)
		if len(*told) > 0 {
			return
		}
		require.False(t, fits.Outcome == model.Fitted && fits.With == nil && len(fits.Alternatives) == 0, "%q says nothing", text)
		if written := strings.NewReplacer("[", "", "]", "").Replace(printed(fits)); !strings.ContainsAny(text, "[]") && !open(fits.Text) {
			require.Equal(t, printed(fits), printed(b.fits(written, at).Fits), "%q, written again as %q", text, written)
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
		trait := traitOf(t, "Trait", k, values...)
		w := NewWords(&model.Catalogue{Traits: []*model.Trait{trait}})
		c := w.lexicon.Condition(trait, text)
		bad := !c.Reads()
		require.Equal(t, bad, c.Fault.Says+c.Fault.Name != "", "%q: what is refused has a reason", text)
		require.Equal(t, bad || c.Any, c.Set.IsEmpty(), "%q: a condition is any, a set or refused", text)
		if bad || c.Any || c.Set.Not(len(values)+1).IsEmpty() {
			return
		}
		back := c.Set.And(nil)
		for _, written := range w.Cells(model.TraitSet{Trait: trait, Values: c.Set}) {
			again := w.lexicon.Condition(trait, written)
			require.Empty(t, again.Fault, "%q, written as %q", text, written)
			back = back.Or(again.Set)
		}
		require.True(t, back.Equal(c.Set), "%q: %s, written again %s", text, c.Set, back)
	})
}
