package bind

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/bind/lexicon"
)

func TestClosed(t *testing.T) {
	for text, says := range map[string]string{
		"1998-2016":       "^$",
		"1998, 2001-2003": "^$",
		"":                "first and last model year",
		"not 2001":        "first and last model year",
		"2001+":           "last model year",
		"to 2001":         "first model year",
		"1000-9999":       "more than",
	} {
		years, why := lexicon.ReadYears(text)
		require.Empty(t, why)
		assert.Regexp(t, says, closed(years), "%q", text)
	}
}
