package grammar

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// declaring gives what knows the names.
func declaring(names ...string) func(string) bool {
	return func(name string) bool { return slices.Contains(names, name) }
}

func TestReadList(t *testing.T) {
	one := func(name string) Piece { return Piece{{As: []string{name}}} }
	for text, want := range map[string]Readings[List]{
		"A":            {{As: List{Pieces: []Piece{one("A")}}}},
		" A  b ;C\nD":  {{As: List{Pieces: []Piece{one("A b"), one("C"), one("D")}}}},
		",":            {{As: List{}}},
		"A or B":       {{As: List{Pieces: []Piece{{{If: "A or B", As: []string{"A or B"}}, {As: []string{"A", "B"}}}}}}},
		"A\u00a0OR\tB": {{As: List{Pieces: []Piece{{{If: "A OR B", As: []string{"A OR B"}}, {As: []string{"A", "B"}}}}}}},
		"not A, B": {
			{If: "not A", As: List{Pieces: []Piece{one("not A"), one("B")}}},
			{As: List{Not: true, Pieces: []Piece{one("A"), one("B")}}},
		},
		"A, not B": {{As: List{Pieces: []Piece{one("A"), one("not B")}}}},
		"not":      {{As: List{Pieces: []Piece{one("not")}}}},
	} {
		assert.Equal(t, want, ReadList(text), "%q", text)
	}
}

// TestListTakes holds that names decide what a list says.
func TestListTakes(t *testing.T) {
	for _, c := range []struct {
		text     string
		declared []string
		names    []string
		not      bool
	}{
		{"A or B", nil, []string{"A", "B"}, false},
		{"A or B", []string{"A or B", "A", "B"}, []string{"A or B"}, false},
		{"not A or B", nil, []string{"A", "B"}, true},
		{"not A or B", []string{"not A"}, []string{"not A", "B"}, false},
		{"not A or B", []string{"not A or B"}, []string{"not A or B"}, false},
		{"not A or B", []string{"A or B"}, []string{"A or B"}, true},
		{"not not A", []string{"not A"}, []string{"not A"}, true},
		{"not A or", []string{"not A"}, []string{"A"}, true},
		{"or", nil, nil, false},
		{"A or or B", nil, []string{"A", "or B"}, false},
	} {
		list := ReadList(c.text).Take(declaring(c.declared...))
		assert.Equal(t, c.names, list.Names(declaring(c.declared...)), "%q", c.text)
		assert.Equal(t, c.not, list.Not, "%q", c.text)
	}
}
