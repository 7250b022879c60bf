package model_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/formula"
	"ferrule/compiler/model"
	"ferrule/schema"
)

// spelled gives the words of values in their order.
func spelled[T fmt.Stringer](values ...T) []string {
	var out []string
	for _, v := range values {
		out = append(out, v.String())
	}
	return out
}

// The words of the catalogue are those that the schemas of rows allow, and no others.
func TestWordsAreThoseOfTheSchemas(t *testing.T) {
	for column, tt := range map[[2]string][]string{
		{schema.Traits, "Kind"}:          spelled(model.TraitKinds()...),
		{schema.Positions, "Coverage"}:   spelled(model.Required, model.Wanted, model.Optional),
		{schema.Parts, "Status"}:         spelled(model.Current, model.Superseded, model.Withdrawn),
		{schema.Compatibility, "Effect"}: spelled(model.Forbid, model.Require, model.Care),
		{schema.Limits, "Must be"}:       spelled(formula.AtLeast, formula.AtMost, formula.EqualTo),
		{schema.Cautions, "Level"}:       model.Levels(),
	} {
		assert.Equal(t, schema.Words(column[0], column[1]), tt, "%s: %s", column[0], column[1])
	}
}
