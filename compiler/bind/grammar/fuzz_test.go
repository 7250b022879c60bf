package grammar

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzRead holds that no text makes reading panic, and that what a tree prints is read as
// the same tree.
func FuzzRead(f *testing.F) {
	for _, text := range []string{
		"", "any", "n/a", "not A or B, C", "or", ",", "A or or B", " ,not A", "not ,", "A\u00a0or\u00a0B", "\xff or İ",
		"from A to B, to C", "from \u0130 to to", "not not A", "n/a or any",
		"3 x A + B or 2x C", "none: a))", "with  it", "tbd", "ask, why", "A or", "A + -", "A\vor\vB", "A\nB", "0 x A", "none 6 or 7",
		"2011", "0000+", "not 2007-2012, to 2006", "2012-2007",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if years, why := ReadYears(text); why == "" {
			again, why := ReadYears(years.String())
			require.Empty(t, why)
			require.Equal(t, years, again, "%q", years.String())
		}
		again(t, ReadList(text), ReadList)
		again(t, ReadCondition(text), ReadCondition)
		for _, said := range ReadList(text).Plain().Names(none) {
			again(t, ReadTerm(said), ReadTerm)
		}
		again(t, ReadFits(text), ReadFits)
	})
}

// again holds that each way to read a text is a way to read what it prints.
func again[T interface{ String() string }](t *testing.T, ways Readings[T], read func(string) Readings[T]) {
	for _, way := range ways {
		if f, is := any(way.As).(Fits); is && fault(f) != "" || way.As.String() == "" {
			continue // it cannot be read as it stands
		}
		var as []T
		for _, other := range read(way.As.String()) {
			as = append(as, other.As)
		}
		require.Contains(t, as, way.As, "%q", way.As.String())
	}
	require.Empty(t, ways[len(ways)-1].If, "the last reading holds whatever is declared")
}
