package guide

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/out/tongue"
	"ferrule/schema"
)

// Every axle and side that a workbook may name is said in every language.
func TestPositionWords(t *testing.T) {
	for _, tag := range tongue.Languages() {
		words, _ := tongue.Of(tag)
		e := &edition{tongue: words}
		for _, axle := range schema.Words(schema.Positions, "Axle") {
			assert.NotEqual(t, axle, e.axleWords(axle), "%s: %s", tag, axle)
		}
		for _, side := range schema.Words(schema.Positions, "Side") {
			if tag != "en" {
				assert.NotEqual(t, side, e.sideWords(side), "%s: %s", tag, side)
			}
		}
		assert.Empty(t, e.axleWords("")+e.sideWords(""))
	}
	en := &edition{tongue: tongue.English()}
	assert.Equal(t, "front axle", en.axleWords("front"))
	assert.Equal(t, "both sides", en.sideWords("both"))
	assert.Equal(t, "left", en.sideWords("left"))
}

// The last of a list knows how the next word begins.
func TestSeparators(t *testing.T) {
	es, _ := tongue.Of("es")
	assert.Equal(t, " e ", separator(es, 1, 2, "and", "Instrumento"))
	assert.Equal(t, " u ", separator(es, 2, 3, "or", "otra"))
	assert.Equal(t, " y ", separator(es, 1, 2, "and"))
	assert.Equal(t, ", ", separator(es, 1, 3, "and", "Instrumento"))
	assert.Empty(t, separator(es, 0, 3, "and", "Instrumento"))
}
