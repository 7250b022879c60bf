package schema

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestKindOf(t *testing.T) {
	tests := []struct {
		name, kind string
		known      bool
	}{
		{"Fitment", Fitment, true}, {"FITMENT 2", Fitment, true}, {"parts-old", Parts, true}, {"kits.schema.json", Kits, true},
		{"Part", "part", false}, {"Partsé", "partsé", false}, {"ÉTÉ 1", "été", false}, {"_Lists", "", false}, {"", "", false}, {"2 parts", "", false},
	}
	for _, tt := range tests {
		kind, known := KindOf(tt.name)
		assert.Equal(t, tt.kind, kind, tt.name)
		assert.Equal(t, tt.known, known, tt.name)
	}
	assert.Equal(t, "Fitment", Title(Fitment))
	assert.Empty(t, Title(""))
}

// Every column says what it holds, and a column that holds a word says which there are.
func TestEveryColumnHoldsSomething(t *testing.T) {
	used := map[Holds]bool{}
	for _, kind := range Kinds() {
		for _, c := range Columns(kind) {
			name := kind + "/" + c.Name
			used[c.Holds] = true
			assert.NotZero(t, c.Holds, name)
			assert.Equal(t, c.Holds == HoldsWord || c.Holds == HoldsEffort, len(c.Words) > 1, name)
			found, ok := Find(kind, " "+c.Name+" ")
			assert.True(t, ok, name)
			assert.Equal(t, c, found, name)
		}
	}
	assert.Len(t, used, len(inSchemas)-1, "every one is held by some column")
}

// A name that a sheet refers to is declared by a column of the kind that declares it.
func TestNamesAreDeclared(t *testing.T) {
	declared := map[Holds]string{}
	for _, kind := range Kinds() {
		for _, c := range Columns(kind) {
			if c.Declares && c.Holds.DeclaredBy() == kind {
				declared[c.Holds] = kind
			}
		}
	}
	for _, kind := range Kinds() {
		for _, c := range Columns(kind) {
			want := c.Holds
			if want == HoldsCautions {
				want = HoldsCaution
			}
			assert.Equal(t, c.Holds.DeclaredBy(), declared[want], "%s/%s", kind, c.Name)
		}
	}
}

func TestLikeFindsColumnsOfOtherKinds(t *testing.T) {
	own, ok := Like(Calculated, "Name")
	require.True(t, ok)
	assert.Equal(t, HoldsFigure, own.Holds)
	first, ok := Like(Kits, "name")
	require.True(t, ok)
	assert.Equal(t, HoldsSentence, first.Holds, "Parts come before Calculated")
	_, ok = Like(Parts, "Colour")
	assert.False(t, ok)
	_, ok = Find(Parts, "Note")
	assert.False(t, ok)
}

func TestWords(t *testing.T) {
	assert.Equal(t, []string{"danger", "warning", "notice", "note"}, Words(Cautions, "Level"))
	assert.Equal(t, []string{"1", "2", "3", "4", "5"}, Words(Traits, "Effort"))
	assert.PanicsWithValue(t, "schema: Words: parts has no words under Name", func() { Words(Parts, "Name") })
}

// The kinds with conditions, and what else further columns are, as the format page says.
func TestFurtherColumns(t *testing.T) {
	want := map[string]Further{Vehicles: {Traits: true}, Breaks: {Traits: true}, Positions: {Traits: true}, Compatibility: {Traits: true}, Accepted: {Traits: true},
		Complaints: {Traits: true}, Inspections: {Traits: true},
		Fitment: {Traits: true, Positions: true}, Facts: {Traits: true, Facts: true}, Parts: {Properties: true}, Translations: {Languages: true}}
	for _, kind := range Kinds() {
		assert.Equal(t, want[kind], FurtherOf(kind), kind)
	}
	assert.Zero(t, FurtherOf("nothing"))
}

func TestSchemasThatSayNoColumn(t *testing.T) {
	for data, want := range map[string]string{
		`{"properties":{"A":{"x-holds":"nonsense"}}}`: `x-holds is "nonsense", which no column holds`,
		`{"properties":{"A":{"x-holds":""}}}`:         `x-holds is "", which no column holds`,
		`{"x-further":["trait"]}`:                     `x-further says "trait", which further columns cannot be`,
	} {
		_, err := readLayout([]byte(data))
		assert.ErrorContains(t, err, want)
	}
	s, err := readLayout([]byte(`{"properties":{"B":{"x-holds":"part","x-header":true,"x-declares":true,"x-about":"Why."},"A":{"x-holds":"word","enum":["u","v"]}}}`))
	require.NoError(t, err)
	assert.Equal(t, []Column{{"B", true, HoldsPart, true, nil, "Why."}, {"A", false, HoldsWord, false, []string{"u", "v"}, ""}}, s.columns)
}
