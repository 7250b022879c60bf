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

// TestWriteList holds that a list that is all of an object gives the same bytes as one value.
func TestWriteList(t *testing.T) {
	for _, all := range [][]int{{}, {1, 2}} {
		var got, want bytes.Buffer
		require.NoError(t, WriteList(&got, ListOf("some", all, func(i int) int { return i })))
		require.NoError(t, Write(&want, map[string][]int{"some": all}))
		assert.Equal(t, want.String(), got.String())
	}
}

// TestWriteAround holds that a list written element by element gives the same bytes as one value.
func TestWriteAround(t *testing.T) {
	type run struct {
		Name    string   `json:"name"`
		Results []any    `json:"results"`
		Others  []string `json:"others"`
	}
	type log struct {
		Title string `json:"title"`
		Runs  []run  `json:"runs"`
	}
	made := func(results ...any) log { return log{`"results": []`, []run{{"<a>", results, []string{}}}} }
	for _, all := range [][]any{{}, {1}, {map[string]any{"a": []int{1, 2}, "b": nil}, "\n", []int{}}} {
		var want, got bytes.Buffer
		require.NoError(t, Write(&want, made(all...)))
		require.NoError(t, WriteAround(&got, made([]any{}...), ListOf("results", all, func(v any) any { return v })))
		assert.Equal(t, want.String(), got.String())
	}
	assert.PanicsWithValue(t, "wire: there is no empty list findings", func() {
		_ = WriteAround(new(bytes.Buffer), made(1), ListOf("findings", []int{1}, func(i int) int { return i }))
	})
}
