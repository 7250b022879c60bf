package mend_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/bind/mend"
)

// TestConditionsWithoutAName holds that a cell of signs and joining words alone is given no
// advice, for none of it is a name.
func TestConditionsWithoutAName(t *testing.T) {
	names := []string{"Air", "Steel"}
	find := func(text string) (int, bool) {
		for i, n := range names {
			if n == text {
				return i, true
			}
		}
		return 0, false
	}
	v := mend.Values{What: "value of Suspension", Names: names, Find: find, Reads: func(s string) bool { _, ok := find(s); return ok }}
	for _, text := range []string{",", ";;", "or", "and", "not ,", "only ,", ", or ,", "|", "+"} {
		a, ok := v.Advise(text)
		assert.False(t, ok, "%q: %v", text, a)
	}
	a, ok := v.Advise("only Air")
	assert.True(t, ok)
	assert.Equal(t, []string{"Air"}, a.Write)
}
