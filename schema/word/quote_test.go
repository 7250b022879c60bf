package word_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/schema/word"
)

func TestQuote(t *testing.T) {
	assert.Equal(t, `"HD-20"`, word.Quote("HD-20"))
	assert.Equal(t, `“5'2"”`, word.Quote(`5'2"`))
	assert.Equal(t, `"1\t\""`, word.Quote("1\t\""), "what cannot be seen is written out")
}
