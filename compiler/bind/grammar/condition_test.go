package grammar

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestReadCondition holds how many ways there are to read a cell, and the last one.
func TestReadCondition(t *testing.T) {
	for text, want := range map[string]struct {
		ifs   []string
		plain Condition
	}{
		" \t":    {[]string{""}, Condition{Any: true}},
		"ANY":    {[]string{"ANY", ""}, Condition{Any: true}},
		"not":    {[]string{"not", ""}, Condition{Fault: `"not" stands alone; write which values it excludes`}},
		"A":      {[]string{"A", ""}, Condition{List: ReadList("A").Plain()}},
		"A, B":   {[]string{"A, B", ""}, Condition{List: ReadList("A, B").Plain()}},
		" not A": {[]string{"not A", "not A", ""}, Condition{List: List{Not: true, Pieces: ReadList("A").Plain().Pieces}}},
	} {
		got := ReadCondition(text)
		var ifs []string
		for _, way := range got {
			ifs = append(ifs, way.If)
		}
		assert.Equal(t, want.ifs, ifs, "%q", text)
		assert.Equal(t, want.plain, got.Plain(), "%q", text)
	}
	for _, whole := range []string{"A, B", "any", "not", "not A"} {
		got := ReadCondition(whole).Take(declaring(whole))
		assert.Equal(t, []string{whole}, got.Names(none), "a declared name is that name, whatever it holds")
		assert.False(t, got.Any || got.Not)
	}
}

func TestReadTerm(t *testing.T) {
	for said, want := range map[string]Term{
		"A":                {Name: "A"},
		"N/A":              {Kind: Absent},
		"Any":              {Kind: Any},
		"not A":            {Kind: Not, Name: "A"},
		"not":              {Name: "not"},
		"notA":             {Name: "notA"},
		"from A":           {Kind: Stretch, From: "A"},
		"From A TO b":      {Kind: Stretch, From: "A", To: "b"},
		"from A to B to C": {Kind: Stretch, From: "A", To: "B to C"},
		"from İ to K":      {Kind: Stretch, From: "İ", To: "K"},
		"from A to":        {Kind: Stretch, From: "A to"},
		"to B":             {Kind: Stretch, To: "B"},
		"to":               {Name: "to"},
	} {
		got := ReadTerm(said)
		assert.Equal(t, want, got.Plain(), "%q", said)
		assert.Equal(t, Term{Name: said}, got.Take(declaring(said)), "%q is a name where it is declared", said)
	}
}
