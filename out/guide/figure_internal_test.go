package guide

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/model"
)

// Decimal signs of values follow the language; numbers of parts and words stay as they are.
func TestFiguresFollowTheLanguage(t *testing.T) {
	cat := &model.Catalogue{Parts: []*model.Part{{Number: "1.5 kg"}}, Traits: []*model.Trait{{Name: "Rating", Kind: model.Ordered, Values: []*model.Value{
		{Name: "6.3 t"}, {Name: "7.1 to 7.5 t"}, {Name: "8 t"}, {Name: "1.5 kg"}, {Name: "Type 2.1"}}}}}
	assert.Equal(t, map[string]string{"6.3 t": "6,3 t", "7.1 to 7.5 t": "7,1 to 7,5 t", "8 t": "8 t"}, figuresIn(cat, ","))
	assert.Nil(t, figuresIn(cat, "."))
	cat.Settings.DecimalComma = true
	cat.Traits[0].Values = []*model.Value{{Name: "6,3 t"}}
	assert.Equal(t, map[string]string{"6,3 t": "6.3 t"}, figuresIn(cat, "."))
	french := &edition{figures: map[string]string{"6.3 t": "6,3 t"}}
	assert.Equal(t, "6,3 t", french.tr("6.3 t"))
	assert.Empty(t, french.foreign("6.3 t"))
}
