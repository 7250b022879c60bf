package measure

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every row of the tables as the source has it.
func TestTable(t *testing.T) {
	var want []string
	add := func(source string, rows ...string) {
		for _, r := range rows {
			want = append(want, source+": "+r)
		}
	}
	// From memory.
	add("SAE J844, from memory",
		"1/8x0.023 in ±0.003 in", "5/32x0.032 in ±0.003 in", "3/16x0.035 in ±0.003 in", "1/4x0.04 in ±0.003 in",
		"5/16x0.04 in ±0.004 in", "3/8x0.062 in ±0.004 in", "1/2x0.062 in ±0.004 in", "5/8x0.092 in ±0.005 in", "3/4x0.092 in ±0.005 in")
	add("DIN 74324 and ISO 7628, from memory",
		"4x1 mm ±0.1 mm", "6x1 mm ±0.1 mm", "8x1 mm ±0.1 mm", "10x1 mm ±0.1 mm", "10x1.5 mm ±0.1 mm", "12x1.5 mm ±0.1 mm",
		"15x1.5 mm ±0.1 mm", "16x2 mm ±0.1 mm", "18x2 mm ±0.1 mm")
	add("NAVEDTRA 14315, table 10-14",
		"1/8 in least 0.06 in", "3/16 in least 0.095 in", "1/4 in least 0.15 in", "5/16 in least 0.18 in", "3/8 in least 0.24 in",
		"1/2 in least 0.33 in", "5/8 in least 0.42 in", "3/4 in least 0.53 in")
	add("ISO 8434-1, from memory", "14 mm", "22 mm", "28 mm")
	add("common practice, no source",
		"1/8 in hose", "3/16 in hose", "1/4 in hose", "5/16 in hose", "3/8 in hose", "13/32 in hose", "1/2 in hose", "5/8 in hose", "3/4 in hose", "7/8 in hose", "1 in hose",
		"1 1/8 in hose", "1 1/4 in hose", "1 3/8 in hose", "1 1/2 in hose", "1 3/4 in hose", "2 in hose",
		"4 mm hose", "5 mm hose", "6 mm hose", "8 mm hose", "10 mm hose", "11 mm hose", "13 mm hose", "16 mm hose", "19 mm hose", "25 mm hose")
	var got []string
	for _, r := range Standard().Rows() {
		assert.NotEmpty(t, r.System)
		assert.NotEmpty(t, r.Source)
		assert.Contains(t, []Mark{Read, Memory, Practice}, r.Mark, r.Size.Text)
		text := r.Size.Text
		if r.Size.Line == Hose {
			text += " hose"
		}
		if r.Tolerance != nil {
			text += " ±" + plain(Convert(r.Tolerance, Millimetre, r.Size.Unit), r.Size.Unit)
		}
		if r.Least != nil {
			text += " least " + plain(Convert(r.Least, Millimetre, Inch), Inch)
		}
		got = append(got, r.Reference()+": "+text)
	}
	assert.Equal(t, want, got)
}

// SAE J844 prints inside diameters with three decimals (from memory): each is what the
// wall leaves, and so is that of the metric tubes.
func TestWallsAgree(t *testing.T) {
	inside := map[string]string{
		"1/8": ".079", "5/32": ".092", "3/16": ".118", "1/4": ".170", "5/16": ".232", "3/8": ".251", "1/2": ".376", "5/8": ".441", "3/4": ".566",
	}
	metric := map[string]int64{
		"4x1 mm": 2, "6x1 mm": 4, "8x1 mm": 6, "10x1 mm": 8, "10x1.5 mm": 7, "12x1.5 mm": 9, "15x1.5 mm": 12, "16x2 mm": 12, "18x2 mm": 14,
	}
	checked := 0
	for _, r := range Standard().Rows() {
		switch {
		case r.System == "SAE J844":
			printed, ok := new(big.Rat).SetString("0" + inside[r.Size.Num.RatString()])
			require.True(t, ok, r.Size.Text)
			off := new(big.Rat).Sub(Convert(r.Size.Inside(), Millimetre, Inch), printed)
			assert.LessOrEqual(t, off.Abs(off).Cmp(big.NewRat(5, 10000)), 0, r.Size.Text)
			checked++
		case r.System == "DIN 74324":
			assert.Zero(t, r.Size.Inside().Cmp(big.NewRat(metric[r.Size.Text], 1)), r.Size.Text)
			checked++
		case r.Least != nil:
			// What J844 leaves inside is enough for a metal tube of the same diameter.
			for _, other := range Standard().Of(r.Size) {
				if in := other.Size.Inside(); in != nil {
					assert.GreaterOrEqual(t, in.Cmp(r.Least), 0, r.Size.Text)
				}
			}
		}
	}
	assert.Equal(t, len(inside)+len(metric), checked)
}

func TestBrokenTableRows(t *testing.T) {
	for name, row := range map[string][]string{
		"short":       {"s", "tube", "in", "1/4"},
		"kind":        {"s", "pipe", "in", "1/4", "", "", "", "source", "read"},
		"unit":        {"s", "tube", "ft", "1/4", "", "", "", "source", "read"},
		"number":      {"s", "tube", "in", "a quarter", "", "", "", "source", "read"},
		"no diameter": {"s", "tube", "in", "", "", "0.04", "", "source", "read"},
	} {
		_, ok := tableRow(row)
		assert.False(t, ok, name)
	}
}
