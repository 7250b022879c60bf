package memo_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/bind/memo"
)

// TestOnce holds that a text is read once, that the zero value keeps nothing, and that what is
// kept stays bounded while every text is still read.
func TestOnce(t *testing.T) {
	var m memo.Texts[string]
	_, kept := m.Find("a")
	assert.False(t, kept)
	made := 0
	read := func() string { made++; return fmt.Sprint("read ", made) }
	assert.Equal(t, "read 1", m.Once("a", read))
	assert.Equal(t, "read 1", m.Once("a", read))
	for i := range 100_000 {
		m.Keep(fmt.Sprint(i), "other")
	}
	v, kept := m.Find("99999")
	assert.False(t, kept, v)
	assert.Equal(t, "read 2", m.Once("late", read))
	assert.Equal(t, "read 1", m.Once("a", read))
}
