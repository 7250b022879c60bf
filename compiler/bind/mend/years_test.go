package mend_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/bind/mend"
)

// piece is one piece of a list of years that reads.
const piece = `(?:\d{4}(?:-\d{4}|\+)?|to \d{4})`

// TestYearsOnOneSide holds which years a word in front of one, or behind it, takes in.
func TestYearsOnOneSide(t *testing.T) {
	reads := regexp.MustCompile(`^(?:not )?` + piece + `(?:, ` + piece + `)*$`).MatchString
	for text, want := range map[string]string{
		"before 2006":      "to 2005",
		"pre-2006":         "to 2005",
		"< 2006":           "to 2005",
		"after 2006":       "2007+",
		"later than 2006":  "2007+",
		"since 2006":       "2006+",
		"2006 and newer":   "2006+",
		"until 2006":       "to 2006",
		"2006 and older":   "to 2006",
		"2001, after 2006": "2001, 2007+",
	} {
		a, ok := mend.Years(text, reads)
		assert.True(t, ok, text)
		assert.Equal(t, []string{want}, a.Write, text)
	}
}
