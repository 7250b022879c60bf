package measure

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// notation is a row of testdata/notations.tsv.
type notation struct{ kind, header, decimal, text, want string }

func notations(t *testing.T) []notation {
	data, err := os.ReadFile(filepath.Join("testdata", "notations.tsv"))
	require.NoError(t, err)
	var out []notation
	for _, line := range strings.Split(strings.TrimSuffix(string(data), "\n"), "\n") {
		if strings.HasPrefix(line, "# ") {
			continue
		}
		f := strings.Split(line, "\t")
		require.Len(t, f, 5, line)
		out = append(out, notation{f[0], f[1], f[2], f[3], f[4]})
	}
	return out[1:]
}

// TestNotations reads every way of writing in the corpus as its row says.
func TestNotations(t *testing.T) {
	seen, figures := map[notation]bool{}, map[string]int{}
	for _, n := range notations(t) {
		key := notation{n.kind, n.header, n.decimal, n.text, ""}
		require.False(t, seen[key], "%+v stands twice", n)
		seen[key] = true
		figures[n.kind+" "+n.holds(t)]++
	}
	t.Log(len(seen), "notations:", figures)
	assert.GreaterOrEqual(t, len(seen), 450)
}

// holds reads a notation, compares it, and says of what sort it is.
func (n notation) holds(t *testing.T) string {
	unit, _ := ParseUnit(n.header)
	o := Options{Comma: n.decimal == ","}
	var said string
	var err error
	switch n.kind {
	case "size":
		var s Size
		if s, err = ParseSizeIn(n.text, unit, o); err == nil {
			said = s.Name()
		}
	case "quantity":
		var q Quantity
		if q, err = ParseQuantityIn(n.text, unit, o); err == nil {
			said = n.spelt(t, q)
		}
	case "thread":
		assert.Equal(t, n.want == "thread", Thread(n.text), "%+v", n)
		return n.want
	default:
		t.Fatalf("%+v has no kind", n)
	}
	refusal, refused := strings.CutPrefix(n.want, "! ")
	switch {
	case refused:
		if assert.Error(t, err, "%+v is read as %s", n, said) {
			assert.Regexp(t, regexp.MustCompile(refusal), err.Error(), "%+v", n)
			assert.False(t, errors.Is(err, ErrNoValue), "%+v is no value at all: %v", n, err)
		}
		return "refused"
	case n.want == "text":
		assert.ErrorIs(t, err, ErrNoValue, "%+v is read as %s", n, said)
		return "text"
	}
	if assert.NoError(t, err, "%+v", n) {
		assert.Equal(t, n.want, said, "%+v", n)
	}
	return "value"
}

// spelt writes a quantity as the corpus does, its numbers as those of the row where they
// are equal.
func (n notation) spelt(t *testing.T, q Quantity) string {
	bound, rest := "", n.want
	for _, b := range []Bound{AtMost, AtLeast} {
		if after, ok := strings.CutPrefix(n.want, b.String()+" "); ok {
			rest = after
		}
	}
	if q.Bound() != Exactly {
		bound = q.Bound().String() + " "
	}
	numbers, _, _ := strings.Cut(rest, " ")
	low, high, ranged := strings.Cut(numbers, "..")
	if !ranged {
		high = low
	}
	if rest == "" || strings.HasPrefix(n.want, "!") || n.want == "text" || q.Low.Cmp(rat(low)) != 0 || q.High.Cmp(rat(high)) != 0 {
		numbers = q.Low.RatString() + ".." + q.High.RatString()
	}
	return bound + numbers + " " + q.Unit.String()
}
