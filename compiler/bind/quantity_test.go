package bind

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
)

func TestAsShown(t *testing.T) {
	third, tenth := 1.0/3, 0.1
	for want, n := range map[string]float64{
		"0.3": 3 * tenth, "612": 612, "-1.5": -1.5, "0.333333333333333": third, "0.00001": 1e-5, "1000000000000000000000": 1e21, "0": 0,
	} {
		assert.Equal(t, want, asShown(n))
	}
}

func TestHeaderUnit(t *testing.T) {
	for text, want := range map[string]measure.Unit{"": measure.NoUnit, "mm": measure.Millimetre, "ft-lbs": measure.PoundForceFoot, "of eye": measure.NoUnit} {
		assert.Equal(t, want, headerUnit(table.Column{Unit: text}), text)
	}
}
