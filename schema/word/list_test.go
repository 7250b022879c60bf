package word

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestList(t *testing.T) {
	for want, words := range map[string][]string{
		"": nil, "a": {"a"}, "a or b": {"a", "b"}, "a, b or c": {"a", "b", "c"},
	} {
		assert.Equal(t, want, List(words, "or"))
	}
}
