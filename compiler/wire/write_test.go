package wire

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestWriteLists holds that an empty list is written as one, but for one that may be
// left out, which takes nothing behind it away.
func TestWriteLists(t *testing.T) {
	list := func(name string, n ...int) List { return ListOf(name, n, func(i int) int { return i }) }
	head := struct {
		Platform string `json:"platform"`
	}{"H7"}
	var b bytes.Buffer
	require.NoError(t, WriteLists(&b, head, list("a"), list("b").OrNone(), list("c", 1, 2), list("d", 3).OrNone()))
	assert.Equal(t, "{\n  \"platform\": \"H7\",\n  \"a\": [],\n  \"c\": [\n    1,\n    2\n  ],\n  \"d\": [\n    3\n  ]\n}\n", b.String())
}
