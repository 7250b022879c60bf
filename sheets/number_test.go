package sheets_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/sheets"
)

// drawNumber draws decimals near the limits of what is read fast.
func drawNumber(t *rapid.T) string {
	digits := rapid.StringMatching(`-?[0-9]{1,17}(\.[0-9]{1,17})?`)
	short := rapid.StringMatching(`-?(0|[1-9][0-9]{0,8})(\.[0-9]{0,6}[1-9])?`)
	return rapid.OneOf(short, digits, rapid.StringMatching(`0\.0{3,9}[1-9]{1,4}`), rapid.StringMatching(`[-+.0-9eE]{1,8}`)).Draw(t, "number")
}

// A number that is taken for its own shortest text has that text, and is that double.
func TestPlainNumber(t *testing.T) {
	plain := 0
	rapid.Check(t, func(t *rapid.T) {
		text := drawNumber(t)
		f, end, ok := sheets.PlainNumber(text + "<")
		if !ok || end < len(text) {
			return // for the other way
		}
		plain++
		require.Equal(t, len(text), end)
		want, shortest, good := sheets.Slowly(text)
		require.True(t, good)
		require.Equal(t, want, f, text)
		require.Equal(t, shortest, text)
	})
	assert.Greater(t, plain, 10)
	for _, text := range []string{"0", "7", "2009", "-3", "0.5", "-0.5", "12.75", "123456789012345", "1234567890.12345", "0.0000001"} {
		_, end, ok := sheets.PlainNumber(text + "<")
		assert.True(t, ok && end == len(text), text)
	}
	for _, text := range []string{"", "-", "-0", "00", "007", "0.", ".5", "0.50", "1234567890123456", "0.1234567890123456", "0.00000001", "<"} {
		_, _, ok := sheets.PlainNumber(text + "<")
		assert.False(t, ok, text)
	}
}

// Digits read all at once are the number that they say, and nothing else is digits.
func TestShortNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.StringMatching(`[0-9]{0,9}`), rapid.StringMatching(`[-+.0-9:/a-f ]{1,7}`), rapid.StringN(0, 4, 7)).Draw(t, "text")
		n, length := sheets.ShortNumber(text + "<")
		want, err := strconv.Atoi(text)
		if err != nil || len(text) > 7 || strings.Trim(text, "0123456789") != "" {
			require.Zero(t, length, text)
			return
		}
		require.Equal(t, len(text), length)
		require.Equal(t, want, n)
	})
	for n := range 256 { // every byte in every place
		for i := range 3 {
			b := []byte("555<")
			b[i] = byte(n)
			_, length := sheets.ShortNumber(string(b))
			switch c := b[i]; {
			case c >= '0' && c <= '9':
				assert.Equal(t, 3, length)
			case c == '<':
				assert.Equal(t, i, length)
			default:
				assert.Zero(t, length, string(b))
			}
		}
	}
}
