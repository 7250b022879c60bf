package sheets

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Serials and days from ECMA-376 Part 1, 18.17.4.1.
func TestSerials(t *testing.T) {
	tests := []struct {
		calendar calendar
		serial   float64
		day      bool
		want     string
	}{
		{from1900, 1, true, "1900-01-01"},
		{from1900, 59, true, "1900-02-28"},
		{from1900, 60, true, "1900-02-29"},
		{from1900, 60.25, true, "1900-02-29T06:00:00"},
		{from1900, 61, true, "1900-03-01"},
		{from1900, 25569, true, "1970-01-01"},
		{from1900, 45292, true, "2024-01-01"},
		{from1900, 2958465, true, "9999-12-31"},
		{from1904, 0, true, "1904-01-01"},
		{from1904, 45292 - 1462, true, "2024-01-01"}, // the systems are 1,462 days apart
		{from1904, 2957003, true, "9999-12-31"},
		{plain1900, 1, true, "1899-12-31"},
		{plain1900, 60, true, "1900-02-28"},
		{plain1900, 61, true, "1900-03-01"},
		// A size typed as 1/2 in 2024 becomes 2 January (SheetJS ssf).
		{from1900, 45293, true, "2024-01-02"},
		{from1900, 45299, true, "2024-01-08"},
		{from1900, 45551, true, "2024-09-16"},
		// Times.
		{from1900, 0, true, "00:00:00"},
		{from1900, 0.5, false, "12:00:00"},
		{from1900, 13.0 / 24, false, "13:00:00"},
		{from1904, 0.5, false, "12:00:00"},
		{from1904, 0.5, true, "1904-01-01T12:00:00"},
		{from1900, 45293 + 13.0/24, true, "2024-01-02T13:00:00"},
		{from1900, 45293 + 1.0/86400/8, true, "2024-01-02T00:00:00.125"},
		{from1900, 45293.9999999999, true, "2024-01-03"}, // rounds up to the next day
		{from1900, 59.9999999999, true, "1900-02-29"},
	}
	for _, tt := range tests {
		got, ok := tt.calendar.iso(tt.serial, tt.day)
		assert.True(t, ok, tt.want)
		assert.Equal(t, tt.want, got)
	}
}

func TestNoDates(t *testing.T) {
	for _, serial := range []float64{-1, -1e-9, 2958466, 2958465.9999999999, 1e300, math.Inf(1), math.Inf(-1), math.NaN()} {
		_, ok := from1900.iso(serial, true)
		assert.False(t, ok, serial)
	}
	_, ok := from1904.iso(2957004, true)
	assert.False(t, ok)
}

func TestStoredDates(t *testing.T) {
	tests := []struct {
		calendar calendar
		stored   string
		serial   float64
		text     string
	}{
		{from1900, "2024-01-02", 45293, "2024-01-02"},
		{from1900, "2024-01-02T00:00:00Z", 45293, "2024-01-02"},
		{from1900, "2024-01-02T12:00", 45293.5, "2024-01-02T12:00:00"},
		{from1900, "2024-01-02T06:00:00.000", 45293.25, "2024-01-02T06:00:00"},
		{from1900, "1900-02-28", 59, "1900-02-28"},
		{from1900, "1900-02-29T12:00:00", 60.5, "1900-02-29T12:00:00"},
		{from1900, "1900-03-01", 61, "1900-03-01"},
		{from1900, "1900-01-01", 1, "1900-01-01"},
		{from1900, "1899-12-31", 0, "1899-12-31"},
		{from1900, "1850-06-01", -18110, "1850-06-01"},
		{from1904, "1904-01-01", 0, "1904-01-01"},
		{plain1900, "1900-02-28", 60, "1900-02-28"},
		{from1900, "18:00:00", 0.75, "18:00:00"},
	}
	for _, tt := range tests {
		serial, text, ok := tt.calendar.parse(tt.stored)
		assert.True(t, ok, tt.stored)
		assert.Equal(t, tt.serial, serial, tt.stored)
		assert.Equal(t, tt.text, text)
	}
	for _, bad := range []string{"", "2024", "2024-1-2", "2024-02-30", "0000-01-01", "2024-01-02T25:00:00", "2024-01-02 12:00:00", "2024-01-02T12:00:00+01:00", "1900-02-29x", "12024-01-01", "45292"} {
		_, _, ok := from1900.parse(bad)
		assert.False(t, ok, bad)
	}
	_, _, ok := from1904.parse("1900-02-29")
	assert.False(t, ok, "only the 1900 system has that day")
}

// What iso writes, parse reads back as the same serial to the millisecond; and days
// count on as the time package counts them.
func TestSerialsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom([]calendar{from1900, plain1900, from1904}).Draw(t, "calendar")
		day := rapid.IntRange(1, 2957002).Draw(t, "day")
		millis := rapid.SampledFrom([]int{0, 1, 500, 43_200_000, 86_399_999}).Draw(t, "millis")
		serial := float64(day) + float64(millis)/dayMillis
		text, ok := c.iso(serial, true)
		require.True(t, ok)
		again, same, ok := c.parse(text)
		require.True(t, ok, text)
		require.Equal(t, text, same)
		require.InDelta(t, serial, again, 0.6/dayMillis)
		if day > 61 && c != from1904 {
			want := time.Date(1900, 3, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, day-61).Format(time.DateOnly)
			require.Equal(t, want, text[:10])
		}
	})
}
