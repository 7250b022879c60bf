package formula

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/measure"
)

// given is a name with its value, for tests.
type given struct{ name, value string }

// bench is a list of names with their values, by ID.
type bench struct {
	*Names
	values []Value
}

// newBench declares names, each with the dimension and the unit of its value.
func newBench(t testing.TB, names ...given) *bench {
	t.Helper()
	b := &bench{Names: NewNames()}
	for i, g := range names {
		q, err := measure.ParseQuantityIn(g.value, measure.One, measure.Options{})
		require.NoError(t, err)
		b.Add(Name{Text: g.name, What: "a property of parts", ID: i, Dim: q.Dimension(), Unit: q.Unit})
		b.values = append(b.values, ValueOf(q))
	}
	return b
}

func (b *bench) of(uses []int) []Value {
	out := make([]Value, len(uses))
	for i, id := range uses {
		out[i] = b.values[id]
	}
	return out
}

func (b *bench) parse(t testing.TB, text string) *Formula {
	t.Helper()
	f, err := Parse(text, b.Names, measure.Options{})
	require.NoError(t, err, text)
	return f
}

// words works a formula out and says the result.
func (b *bench) words(t testing.TB, text string) string {
	t.Helper()
	f := b.parse(t, text)
	v, err := f.Eval(b.of(f.Uses))
	require.NoError(t, err, text)
	return f.Words(v, measure.MetricSystem)
}

func TestEval(t *testing.T) {
	b := newBench(t, given{"Extended length", "612 mm"}, given{"Compressed length", "378 mm"}, given{"Travel", "8-9 in"},
		given{"Load", "10 kN"}, given{"Springs", "4"}, given{"Cross-section", "2 mm²"}, given{"Length (open)", "1 m"},
		given{"Length", "3 m"}, given{"Open / closed", "2"}, given{"Length - free", "50 mm"}, given{"(A)", "7"})
	for text, want := range map[string]string{
		"Extended length - Compressed length":          "234 mm (9.213 in)",
		" extended  LENGTH\u00a0-\nCompressed length ": "234 mm (9.213 in)",
		"Extended length − Compressed length":          "234 mm (9.213 in)",
		"Extended length – 1/2 in (12.7 mm)":           "599.3 mm (23.594 in)",
		"1/2 in":                                       "1/2 in (12.7 mm)",
		"Travel + 10 mm":                               "8.3937–9.3937 in (213.2–238.6 mm)",
		"10 mm ±0.1 * 2":                               "19.8–20.2 mm (0.78–0.795 in)",
		"2 * 3 + 4":                                    "10",
		"2 + 3 * 4":                                    "14",
		"(2 + 3) * 4":                                  "20",
		"( ( 2 + 3 ) ) * 4":                            "20",
		"24 / 4 / 2":                                   "3",
		"10 - 4 - 3":                                   "3",
		"10 - (4 - 3)":                                 "9",
		"3 × 4 ÷ 6 · 5":                                "10",
		"Load / Springs":                               "2.5 kN (562 lbf)",
		"Springs * Load":                               "40 kN (8992 lbf)",
		"Load / Cross-section":                         "5000000 kPa (725189 psi)",
		"Length (open) * 2":                            "2 m (6.562 ft)",
		"Length * 2":                                   "6 m (19.685 ft)",
		"Open / closed + 1":                            "3",
		"Length - free":                                "50 mm (1.969 in)",
		"Length - Travel":                              "2.7714–2.7968 m (9.093–9.176 ft)",
		"(A) + 1":                                      "8",
		"((A) + 1) * 2":                                "16",
		"-1 + Springs":                                 "3",
		"40 % * Load":                                  "4 kN (899 lbf)",
		"Springs - Springs":                            "0",
		"Travel - Travel":                              "-1 to 1 in (-25.4 to 25.4 mm)",
		"Load * Load / Load":                           "10000 N (2248 lbf)",
		"Extended length * Extended length / 1 mm":     "374544 mm (14745.827 in)",
		"Extended length * Load * Load":                "61200000 SI units of mass²·length³/time^4",
	} {
		assert.Equal(t, want, b.words(t, text), text)
	}
}

// A quantity with a decimal comma is read as the settings say.
func TestComma(t *testing.T) {
	f, err := Parse("12,7 mm + 1 mm", NewNames(), measure.Options{Comma: true})
	require.NoError(t, err)
	v, err := f.Eval(nil)
	require.NoError(t, err)
	assert.Zero(t, v.Low.Cmp(big.NewRat(137, 10_000)))
}

func TestFaults(t *testing.T) {
	b := newBench(t, given{"Front wheel travel", "240 mm"}, given{"Axle load", "60 kN"}, given{"Length", "1 m"})
	b.Add(Name{Text: "Ride height", What: "a property of parts", ID: 10})
	b.Add(Name{Text: "ride  height", What: "a fact of vehicles", ID: 11})
	b.Add(Name{Text: "Colour", What: "a property of parts", ID: 12, Why: `Colour holds no quantities: Parts!F4 says "black"`})
	b.Add(Name{Text: "PI", What: "a property of parts", ID: 13})
	for text, want := range map[string]string{
		"":                                "a formula is missing",
		"=Length + 1 m":                   `begins without =; write "Length \+ 1 m"`,
		strings.Repeat("1 + ", 200) + "1": "more than 500 characters",
		"Front wheel travel + Axle load":  "the formula adds a force, Axle load, to a length, Front wheel travel; only like",
		"Length - Axle load * 2":          `the formula takes a force, Axle load \* 2, from a length, Length;`,
		"Length + 10":                     "adds a plain number, 10, to a length, Length;",
		"(Length * Length) + Length":      `adds a length, Length, to an area, \(Length \* Length\);`,
		"Frnt wheel travel + 1 mm":        `called "Frnt wheel travel", and it is no quantity \(did you mean Front wheel travel\?\)`,
		"Front wheel travel+10 mm":        `operators have spaces around: write Front wheel travel \+ 10 mm$`,
		"Length/2":                        "write Length / 2$",
		"Length -1 m":                     "write Length - 1 m$",
		"Stroke":                          `no property of parts and no fact is called "Stroke", and it is no quantity$`,
		"10 mmm":                          `"10 mmm": mmm is not understood`,
		"Length +":                        `missing behind "Length \+"`,
		"+ Length":                        `missing before "\+ Length"`,
		"Length + * 2":                    `missing between "Length \+" and "\* 2"`,
		"Length + ()":                     `missing between "Length \+ \(" and "\)"`,
		"(Length":                         `the \( before "Length" is not closed`,
		"(Length * (2 + 3)":               `is not closed`,
		"Length) + 1 m":                   `a \) stands at the end of "Length\)"`,
		"(Length) 2":                      `an operator is missing behind "\(Length\)"`,
		"Length / (2 * (3 - 3))":          `divides by \(2 \* \(3 - 3\)\), which is 0`,
		"Length / 0-2":                    "divides by 0-2, which may be 0",
		"1 / (2 / 0)":                     "divides by 0, which is 0",
		"Ride height":                     "Ride height is the name of a property of parts and of a fact of vehicles",
		"Colour * 2":                      `Colour holds no quantities: Parts!F4 says "black"`,
		"pi * Length":                     "pi is the name of the number pi and of a property of parts",
		strings.Repeat("(", 30) + "1":     "more than 20 brackets",
		strings.Repeat("Length * ", 21) + "Length": "of no kind that anything is measured in",
	} {
		_, err := Parse(text, b.Names, measure.Options{})
		if assert.Error(t, err, text) {
			assert.Regexp(t, want, err.Error(), text)
		}
	}
	b.Add(Name{Text: "Broken", Faulty: true})
	_, err := Parse("Broken + 1 mm", b.Names, measure.Options{})
	assert.ErrorIs(t, err, ErrDead)
}

func TestUndefined(t *testing.T) {
	b := newBench(t, given{"Length", "1 m"}, given{"Gap", "-1-1 mm"}, given{"Zero", "0"})
	for text, want := range map[string]string{
		"Length / Gap":         "it divides by Gap, which may be 0",
		"2 / (Zero * 3)":       `it divides by \(Zero \* 3\), which is 0`,
		"Length / (Gap + Gap)": `it divides by \(Gap \+ Gap\), which may be 0`,
	} {
		f := b.parse(t, text)
		_, err := f.Eval(b.of(f.Uses))
		require.ErrorIs(t, err, ErrUndefined)
		assert.Regexp(t, want, err.Error())
		assert.True(t, f.Divides())
	}
	// A value that is calculated from calculated values can grow where a text cannot.
	half := new(big.Rat).SetInt(new(big.Int).Lsh(big.NewInt(1), maxBits/2))
	f := b.parse(t, "Length * Length")
	_, err := f.Eval([]Value{NewValue(half, half, measure.Dimension{Length: 1})})
	require.ErrorIs(t, err, ErrUndefined)
	assert.EqualError(t, err, "its numbers grow too large")
}

func TestDepthAndUses(t *testing.T) {
	b := newBench(t, given{"A", "1"}, given{"B", "2"}, given{"C", "3"})
	f := b.parse(t, "B * (A + B * (C - A))")
	assert.Equal(t, []int{1, 0, 2}, f.Uses)
	assert.Equal(t, 5, f.depth)
	assert.Equal(t, measure.Count(), f.Dimension())
}
