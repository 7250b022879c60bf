package schema

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestManyRules compiles 2,400 rules, which takes long where each is looked for among all others,
// and holds what they say of a row against a few of them.
func TestManyRules(t *testing.T) {
	few, many := []any{}, []any{}
	for i := range 2400 {
		rule := map[string]any{"if": map[string]any{"properties": map[string]any{"Part": map[string]any{"const": fmt.Sprint("P-", i)}}, "required": []string{"Part"}},
			"then": map[string]any{"required": []string{"Family"}}}
		if many = append(many, rule); i%500 == 7 {
			few = append(few, rule)
		}
	}
	broken := func(rules []any, part string) (out []string) {
		data, err := json.Marshal(map[string]any{"$schema": draft, "allOf": rules})
		require.NoError(t, err)
		set, problems := New([]Extra{{"parts.schema.json", data}})
		require.Empty(t, problems)
		for _, v := range set.Validator(Parts, []string{"Part"}).Validate([]Value{Text(part)}) {
			out = append(out, v.Field+": "+v.Message)
		}
		return out
	}
	assert.NotEmpty(t, broken(few, "P-1007"))
	assert.Equal(t, broken(few, "P-1007"), broken(many, "P-1007"))
	assert.Empty(t, broken(few, "Q-1"))
	assert.Equal(t, broken(few, "Q-1"), broken(many, "Q-1"))
}

// TestOnlyWhatReadsTheSame keeps schemas as they are that an earlier draft would read otherwise.
func TestOnlyWhatReadsTheSame(t *testing.T) {
	large := map[string]any{}
	for i := range few + 1 {
		large[fmt.Sprint(i)] = map[string]any{}
	}
	docs := map[string]any{"a": map[string]any{"properties": large}}
	assert.True(t, quick(docs))
	for _, name := range []string{"prefixItems", "items", "$dynamicAnchor", "unevaluatedProperties", "$recursiveRef"} {
		docs["b"] = map[string]any{"allOf": []any{map[string]any{name: map[string]any{}}}}
		assert.False(t, quick(docs), name)
	}
	assert.False(t, quick(map[string]any{"a": map[string]any{"properties": map[string]any{}}}))
}
