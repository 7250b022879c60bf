package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTellsAndEffort(t *testing.T) {
	h7, h9 := &Platform{Name: "H7"}, &Platform{Name: "H9"}
	arm := &Trait{Effort: 3, Values: []*Value{
		{Tell: []Tell{{Text: "A seam."}, {Platform: h9, Text: "Painted grey.", Effort: 1}}},
		{Tell: []Tell{{Platform: h9, Effort: 2}}},
	}}
	assert.True(t, arm.Tells(h7))
	assert.Equal(t, 3, arm.EffortOn(h7), "rows of another platform")
	assert.Equal(t, 2, arm.EffortOn(h9), "the most of its own rows")

	own := &Trait{Effort: 9, Tell: []Tell{{Platform: h9, Text: "On the plate."}}}
	assert.False(t, own.Tells(h7))
	assert.True(t, own.Tells(h9))
	assert.Equal(t, 5, own.EffortOn(h9))
	assert.False(t, (&Trait{Values: []*Value{{Tell: []Tell{{Picture: Picture{Name: "arm.png"}}}}}}).Tells(h7), "a picture without words")
	assert.Equal(t, 1, (&Trait{}).EffortOn(h7))

	c := &Catalogue{YearTell: []Tell{{Effort: 2}, {Platform: h9, Effort: 1}}}
	assert.Equal(t, 2, c.YearEffort(h7))
	assert.Equal(t, 1, c.YearEffort(h9))
	assert.Equal(t, 1, (&Catalogue{}).YearEffort(h7))
}
