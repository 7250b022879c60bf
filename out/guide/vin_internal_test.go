package guide

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// 49 CFR 565.15, table VII: the two ends of each round, the letters that are left out
// (I, O, Q, U, Z and the figure 0), and the tenth characters of two published VINs.
func TestYearCodes(t *testing.T) {
	assert.Len(t, yearCodes, 30)
	for year, want := range map[int]string{
		1979: "", 1980: "A", 1987: "H", 1988: "J", 1992: "N", 1993: "P", 1994: "R", 1996: "T", 1997: "V",
		2000: "Y", 2001: "1", 2009: "9", 2010: "A", 2017: "H", 2018: "J", 2030: "Y", 2039: "9", 2040: "",
	} {
		assert.Equal(t, want, yearCode(year), year)
	}
	for _, none := range "IOQUZ0" {
		assert.NotContains(t, yearCodes, string(none))
	}
	for vin, year := range map[string]int{"1G4AH59H45G118341": 2005, "1M8GDM9AXKP042788": 1989} {
		assert.Equal(t, vin[9:10], yearCode(year), vin)
	}
}

func TestCodesThatStandForTwoYears(t *testing.T) {
	var years []int
	for y := 1998; y <= 2029; y++ {
		years = append(years, y)
	}
	assert.Equal(t, []string{"W", "X"}, twice(years))
	assert.Nil(t, twice(years[:30]))
	assert.Nil(t, twice([]int{1950, 1951}))
}
