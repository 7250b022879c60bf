package table

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// iso gives the date of a serial of the 1900 system from 61 on (ECMA-376 Part 1,
// 18.17.4.1).
func iso(serial int) string {
	return time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC).AddDate(0, 0, serial).Format(time.DateOnly)
}

// TestSizesThatBecameDates holds guesses against what npm ssf makes of typed sizes in
// the year 2024, format 16 (d-mmm); 5/32 is from memory, in format 17 (mmm-yy). In the
// 1904 system a date is the same and its serial is 1462 less, so neither the date nor
// the guess changes.
func TestSizesThatBecameDates(t *testing.T) {
	for typed, c := range map[string]struct {
		serial int
		format string
	}{
		"1/8": {45299, "d-mmm"}, "3/16": {45367, "d-mmm"}, "1/4": {45295, "d-mmm"}, "5/16": {45428, "d-mmm"},
		"3/8": {45359, "d-mmm"}, "7/16": {45489, "d-mmm"}, "1/2": {45293, "d-mmm"}, "9/16": {45551, "d-mmm"},
		"5/8": {45420, "d-mmm"}, "3/4": {45355, "d-mmm"}, "5/32": {11810, "mmm-yy"},
	} {
		for _, offset := range []int{0, 1462} {
			d := stamped(iso(c.serial), c.format, float64(c.serial-offset))
			assert.Equal(t, []string{typed}, d.sizes(), typed)
		}
	}
}

// TestSizesByOrder goes through the ways in which countries order day and month: of a
// proper fraction there is one in either order.
func TestSizesByOrder(t *testing.T) {
	for _, c := range []struct {
		date, format string
		want         []string
	}{
		{"2024-01-02", "d-mmm", []string{"1/2"}}, // month first
		{"2024-02-01", "d-mmm", []string{"1/2"}}, // day first
		{"2024-08-03", "d-mmm", []string{"3/8"}},
		{"2016-09-01", "mmm-yy", []string{"9/16"}}, // day first: there is no 16th month
		{"1932-11-01", "mmm-yy", []string{"11/32"}},
		{"1964-01-01", "mmm-yy", []string{"1/64"}},
		{"2002-01-01", "mmm-yy", []string{"1/2"}},
		{"2024-01-02", "mm-dd-yy", []string{"1/2"}},
		{"2008-01-03", "m/d/yyyy", []string{"1 3/8"}},
		{"2008-01-03", "dd/mm/yyyy", []string{"3 1/8"}},
		{"2008-01-03", `dd" de "mm" de "yyyy`, []string{"3 1/8"}},
		{"2008-01-03", "mm-dd-yy", []string{"1 3/8", "3 1/8"}},
		{"2002-01-01", "mm-dd-yy", []string{"1 1/2", "1/2"}},
		{"2024-02-04", "d-mmm", nil}, // 2/4 is not in lowest terms
		{"2024-03-03", "d-mmm", nil},
		{"2024-01-03", "d-mmm", nil},
		{"2024-05-17", "yyyy-mm-dd", nil},
	} {
		assert.Equal(t, c.want, stamped(c.date, c.format, 0).sizes(), "%s %s", c.date, c.format)
	}
}

func TestYearsThatBecameDates(t *testing.T) {
	for _, c := range []struct {
		date, format string
		serial       float64
		want         []string
	}{
		{"1905-07-04", "d-mmm", 2012, []string{"2012"}},
		{"1909-07-05", "mm-dd-yy", 2012, []string{"2012"}}, // 1904 system
		{"2012-05-01", "yyyy", 41030, []string{"2012"}},
		{"2012-01-01", "mm-dd-yy", 40909, []string{"2012"}},
		{"2026-07-12", "d-mmm", 46215, []string{"2007-2012"}},
		{"2026-12-07", "d-mmm", 46363, []string{"2007-2012"}},
		{"2012-07-01", "mmm-yy", 41091, []string{"2007-2012"}},
		{"2007-12-01", "mmm-yy", 39417, []string{"2007-2012"}},
		{"1998-07-01", "mmm-yy", 35977, []string{"1998-2007"}},
		{"2007-07-01", "mmm-yy", 39264, []string{"2007"}},
		{"2026-05-05", "d-mmm", 46147, []string{"2005"}},
		{"2024-07-12", "dd/mm/yyyy", 45485, []string{"2024", "2007-2012"}},
	} {
		assert.Equal(t, c.want, stamped(c.date, c.format, c.serial).years(), "%s %s", c.date, c.format)
	}
}

func TestMonths(t *testing.T) {
	for word, want := range map[string]int{"Jan": 1, "DEC": 12, "Sept": 9, "march": 3, "marker": 0, "ma": 0, "may": 5, "mayb": 0, "": 0} {
		assert.Equal(t, want, monthOf(word), word)
	}
}
