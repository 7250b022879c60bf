package line

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// room is small, so that ranges meet and touch often.
const room = 9

func anySet(t *rapid.T, label string) Set {
	var ranges []Range
	for i := range rapid.IntRange(0, 4).Draw(t, label) {
		from := rapid.Int64Range(0, room).Draw(t, fmt.Sprint(label, i, "from"))
		ranges = append(ranges, Range{rapid.SampledFrom([]string{"", "A"}).Draw(t, fmt.Sprint(label, i)), from,
			from + rapid.Int64Range(-1, 3).Draw(t, fmt.Sprint(label, i, "more"))})
	}
	return SetOf(ranges...)
}

// points gives what a set holds, one by one, from its definition.
func points(s Set) map[Point]bool {
	out := map[Point]bool{}
	for _, r := range s {
		for n := r.From; n <= r.To; n++ {
			out[Point{r.Letters, n}] = true
		}
	}
	return out
}

// TestSets holds the operations against sets of single points.
func TestSets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := anySet(t, "a"), anySet(t, "b"), anySet(t, "c")
		inA, inB, inC := points(a), points(b), points(c)
		or, and, without := points(a.Or(b)), points(a.And(b)), points(a.Without(b))
		for _, letters := range []string{"", "A", "B"} {
			for n := int64(-1); n < room+6; n++ {
				p := Point{letters, n}
				assert.Equal(t, inA[p] || inB[p], or[p], "or %v", p)
				assert.Equal(t, inA[p] && inB[p], and[p], "and %v", p)
				assert.Equal(t, inA[p] && !inB[p], without[p], "without %v", p)
				assert.Equal(t, inA[p], a.Has(p), "has %v", p)
			}
		}
		assert.Equal(t, len(inA), int(a.Count().Int64()))
		assert.Equal(t, len(and) > 0, a.Meets(b))
		assert.Equal(t, a.Or(b), SetOf(a.Or(b)...), "in normal form")
		assert.Equal(t, a.Without(b), SetOf(a.Without(b)...))

		same := func(p, q Point) bool { return inB[p] == inB[q] && inC[p] == inC[q] }
		cut := a.Cut(b, c)
		assert.Equal(t, a, SetOf(cut...), "cut ranges are the set")
		for i, r := range cut {
			for n := r.From; n <= r.To; n++ {
				assert.True(t, same(r.First(), Point{r.Letters, n}), "%v is cut too little", r)
			}
			if next := i + 1; next < len(cut) && cut[next].Letters == r.Letters && cut[next].From == r.To+1 {
				assert.False(t, same(r.End(), cut[next].First()), "%v is cut needlessly", r)
			}
		}
	})
}

// A condition that has no beginning is said without one, and reads back to what it was.
func TestCondition(t *testing.T) {
	for text, want := range map[string]string{
		"to 41199": "to 41199", "before 41200": "to 41199", "from 41200": "from 41200", "0": "0", "0-5": "to 5", "7 to 9": "7 to 9", "A100": "A100", "to A9": "to A9",
	} {
		r, err := Serial.Range(text)
		assert.NoError(t, err)
		assert.Equal(t, want, Serial.Condition(r))
		back, err := Serial.Range(want)
		assert.NoError(t, err)
		assert.Equal(t, r, back)
	}
	for text, want := range map[string]string{"to 2009-02": "to 2009-02", "before 2009-03-02": "to 2009-03-01", "2009-03": "2009-03", "from 2009-03": "from 2009-03"} {
		r, err := Date.Range(text)
		assert.NoError(t, err)
		assert.Equal(t, want, Date.Condition(r))
		back, err := Date.Range(want)
		assert.NoError(t, err)
		assert.Equal(t, r, back)
	}
}
