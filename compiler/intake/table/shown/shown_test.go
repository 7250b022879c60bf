package shown_test

import (
	"math/big"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/intake/table/shown"
)

// TestLikeSSF holds looks against those of another program: testdata/ssf.tsv has
// format, number and what npm ssf 0.11.2 shows, with the spaces that align it taken
// out. Left out of it is where ssf differs from spreadsheet programs (it rounds -2.5 to
// -2 and shows nothing for 0 eighths), and 12.7 in fractions of one digit, for which it
// takes 12 2/3 although 12 5/7 is nearer.
func TestLikeSSF(t *testing.T) {
	data, err := os.ReadFile("testdata/ssf.tsv")
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")
	require.Len(t, lines, 657)
	for _, line := range lines {
		f := strings.Split(line, "\t")
		require.Len(t, f, 3, line)
		l, ok := shown.Number(f[1], f[0])
		if assert.True(t, ok, line) {
			assert.Equal(t, f[2], strings.Join(strings.Fields(l.Text), " "), "%s under %s", f[1], f[0])
		}
	}
}

func TestLook(t *testing.T) {
	for _, c := range []struct {
		number, code, text, value string
		traits                    string
	}{
		{"0.3125", "# ?/?", "1/3", "1/3", "fraction"}, // format 12 of ECMA-376 Part 1, 18.8.30; npm ssf shows it so
		{"0.3125", "# ??/??", "5/16", "5/16", "fraction"},
		{"0.99", "# ?/?", "1", "1", "fraction"},
		{"0", "# ?/8", "0", "0", "fraction"},
		{"417", "00000", "00417", "417", "zeros"},
		{"0", "0", "0", "0", ""},
		{"0.5", "0.0", "0.5", "0.5", ""},
		{"6.5", "00.0", "06.5", "6.5", "zeros"},
		{"417001", "000-000", "417-001", "417001", "parted"},
		{"417", `"HD-"0`, "HD-417", "417", "words"},
		{"5", `"HD-"???`, "HD-  5", "5", "words"}, // a digit that is not there is as wide as one
		{"12.7", `0" mm"`, "13 mm", "13", "words"},
		{"0.5", `0.0\"`, `0.5"`, "0.5", "words"},
		{"12.5", "0.00", "12.50", "12.5", ""},
		{"-2.5", "0", "-3", "-3", ""},
		{"-0.4", "0", "0", "0", ""},
		{"1200", "#,##0", "1,200", "1200", ""},
		{"1500", "0,", "2", "2", ""},
		{"1234.5", "0.0,0", "1234.50", "1234.5", ""},
		{"0.5", "0%", "50%", "50", "percent"},
		{"1200000", "0.00E+00", "1.20E+06", "1200000", "power"},
		{"9996", "0.00E+00", "1.00E+04", "10000", "power"},
		{"12", ";;;", "", "", ""},
		{"12", "[Red]0", "12", "12", ""},
		{"12", `"sold out"`, "sold out", "", "words"},
		{"24", `[<100]0" mm";0" cm"`, "24 mm", "24", "words"},
		{"100", `[<100]0" mm";0" cm"`, "100 cm", "100", "words"},
		{"100", `[<=100]0" mm";[>=1000]0" m";0" cm"`, "100 mm", "100", "words"},
		{"500", `[<=100]0" mm";[>=1000]0" m";0" cm"`, "500 cm", "500", "words"},
		{"1000", `[Red][<=100]0" mm";[>=1000]0" m";0" cm"`, "1000 m", "1000", "words"},
		{"1", `[=1]0" pc";0" pcs"`, "1 pc", "1", "words"},
	} {
		l, ok := shown.Number(c.number, c.code)
		require.True(t, ok, "%s under %s", c.number, c.code)
		assert.Equal(t, c.text, l.Text, "%s under %s", c.number, c.code)
		assert.Equal(t, c.traits, traits(l), "%s under %s", c.number, c.code)
		if c.value == "" {
			assert.Nil(t, l.Value, "%s under %s", c.number, c.code)
			continue
		}
		want, ok := new(big.Rat).SetString(c.value)
		require.True(t, ok)
		require.NotNil(t, l.Value, "%s under %s", c.number, c.code)
		assert.Equal(t, want.RatString(), l.Value.RatString(), "%s under %s", c.number, c.code)
	}
}

func traits(l shown.Look) string {
	var out []string
	for _, t := range []struct {
		has  bool
		name string
	}{{l.Zeros, "zeros"}, {l.Words, "words"}, {l.Parted, "parted"}, {l.Percent, "percent"}, {l.Power, "power"}, {l.Fraction, "fraction"}} {
		if t.has {
			out = append(out, t.name)
		}
	}
	return strings.Join(out, " ")
}

func TestUnknownFormats(t *testing.T) {
	for _, code := range []string{"", " ", "d-mmm", "yyyy", "General", "[>100]0", "[h]:mm", `0"mm`, `0\`, "@", "##0.0E+0", "0/0/0", "0E+0/0", "# ?/", "?/0x", "#.0/?", "/", "[Red"} {
		_, ok := shown.Number("12", code)
		assert.False(t, ok, code)
	}
	_, ok := shown.Number("twelve", "0")
	assert.False(t, ok)
}

func TestPlain(t *testing.T) {
	for code, want := range map[string]bool{
		"0": true, "0.00": true, "#,##0;[Red]-#,##0": true, "$#,##0": true, "0;-0;;@": true,
		"0%": false, "# ?/?": false, "0.0E+00": false, `0" mm"`: false, ";;;": false, "0;;": false, "d-mmm": false, "": false,
	} {
		assert.Equal(t, want, shown.Plain(code), code)
	}
}

// TestDigitsSayTheValue holds that what is shown and what Look says is shown agree, for
// formats whose digits read as a number.
func TestDigitsSayTheValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-1e9, 1e9).Draw(t, "number")
		code := rapid.SampledFrom([]string{"0", "0.0", "0.00", "#,##0.0##", "0000.0", "0.00E+00"}).Draw(t, "format")
		l, ok := shown.Number(strconv.FormatFloat(f, 'f', -1, 64), code)
		require.True(t, ok)
		read, ok := new(big.Rat).SetString(strings.ReplaceAll(l.Text, ",", ""))
		require.True(t, ok, l.Text)
		assert.Equal(t, read.RatString(), l.Value.RatString(), l.Text)
	})
}

// FuzzNumber holds that no format is too odd.
func FuzzNumber(f *testing.F) {
	for _, code := range []string{"# ?/?", `_(* #,##0_);_(* \(#,##0\);_(* "-"_)`, "0.00E+00", "[$€-407]0,;;x", "?/99999"} {
		f.Add("0.3125", code)
		f.Add("-1e300", code)
	}
	f.Fuzz(func(t *testing.T, decimal, code string) {
		if len(decimal) > 40 || len(code) > 100 || strings.ContainsAny(decimal, "eEpP/xX_") {
			return
		}
		l, ok := shown.Number(decimal, code)
		if ok {
			assert.Equal(t, strings.TrimSpace(strings.TrimPrefix(l.Text, "-")), strings.TrimPrefix(l.Text, "-"))
		}
	})
}
