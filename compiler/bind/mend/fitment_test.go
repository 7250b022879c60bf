package mend_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/bind/mend"
)

// TestTwoPartsAmongWords holds that of two parts among other words none is taken for the one
// that is meant, although neither looks like a number.
func TestTwoPartsAmongWords(t *testing.T) {
	part := regexp.MustCompile(`^(?:BOLT|NUT|WASHER)$`)
	f := mend.Fitment{
		Find:  func(text string) (string, bool) { return text, part.MatchString(text) },
		Alike: func(string) string { return "" },
		Near:  func(string) string { return "" },
		Reads: part.MatchString,
		Most:  99,
	}
	for _, text := range []string{"use BOLT under NUT", "BOLT under NUT here", "the BOLT for the NUT there"} {
		a, ok := f.Advise(text)
		assert.False(t, ok, "%q: %v", text, a)
	}
	a, ok := f.Advise("use BOLT under it")
	assert.True(t, ok)
	assert.Equal(t, []string{"BOLT"}, a.Write)
}
