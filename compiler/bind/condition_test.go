package bind

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
)

// TestBrokenCellSaysNothing holds that a cell which shows an error, and has been told, names no
// trait and no value: the row is set aside, and it is not taken for a blank cell, which is any.
func TestBrokenCellSaysNothing(t *testing.T) {
	trait := traitOf(t, "Trait", model.Choice, "Air", "Steel")
	b := &binder{cat: &model.Catalogue{Traits: []*model.Trait{trait}}}
	b.lexicon = lexicon.Of(b.cat)
	b.Report = func(f *finding.Finding) { t.Errorf("told besides: %s", f.Message) }
	r := row{&table.Table{Columns: []table.Column{{}}}, &table.Record{}}
	var w model.When
	b.whenTrait(r, table.Field{Broken: true}, trait, &w)
	assert.True(t, w.SetAside)
	assert.Empty(t, w.Traits)
	said := b.vehicleSet(r, trait, table.Field{Broken: true}, &w)
	assert.True(t, said.Values.IsEmpty())
}
