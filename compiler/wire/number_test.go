package wire

import (
	"encoding/json"
	"math/big"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestDecimal(t *testing.T) {
	for rat, want := range map[string]json.Number{
		"0":                              "0",
		"5200":                           "5200",
		"621/2":                          "310.5",
		"1/8":                            "0.125",
		"1/3":                            "0.3333333333333333",
		"-5/4":                           "-1.25",
		"1/1000000000":                   "0.000000001",
		"123456789012345678/1":           "123456789012345678",
		"123456789012345/10":             "12345678901234.5",
		"1234567890123456/10":            "123456789012345.6",
		"100000000000000000000000001/10": "1e+25",
		"2/3000000000":                   "6.666666666666666e-10",
	} {
		r, ok := new(big.Rat).SetString(rat)
		require.True(t, ok, rat)
		assert.Equal(t, want, Decimal(r), rat)
	}
	assert.Equal(t, json.Number(""), Decimal(nil))
}

// What does not end is larger than any double only in catalogues that nobody keeps;
// it must still be a number.
func TestDecimalBeyondDoubles(t *testing.T) {
	huge := new(big.Int).Exp(big.NewInt(10), big.NewInt(400), nil)
	s := Decimal(new(big.Rat).SetFrac(huge, big.NewInt(3)))
	assert.True(t, json.Valid([]byte(s)))
	assert.Len(t, string(s), 400)
}

// Every decimal reads back to the double nearest to the rational, and those that end
// within 15 digits are the rational itself.
func TestDecimalReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		num := rapid.Int64().Draw(t, "num")
		den := rapid.OneOf(rapid.Int64Range(1, 1<<40), rapid.SampledFrom([]int64{1, 2, 4, 5, 8, 10, 1000, 3, 7})).Draw(t, "den")
		r := big.NewRat(num, den)
		s := string(Decimal(r))
		require.True(t, json.Valid([]byte(s)), s)
		got, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		want, _ := r.Float64()
		require.Equal(t, want, got, s)
		if places, ends := r.FloatPrec(); ends && significant(r.FloatString(places)) <= exactDigits {
			exact, ok := new(big.Rat).SetString(s)
			require.True(t, ok)
			require.Zero(t, exact.Cmp(r), s)
		}
	})
}

func TestYearSpans(t *testing.T) {
	assert.Equal(t, [][2]int{{1998, 1999}, {2001, 2001}}, YearSpans([]int{1998, 1999, 2001}))
	assert.Equal(t, [][2]int{}, YearSpans(nil))
}
