package space_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/space"
)

// TestNodesAreToldApart holds that regions with one hash, which are too rare to be met in
// a test, are not taken for one another.
func TestNodesAreToldApart(t *testing.T) {
	s := space.New([]int{3, 3}, space.Options{})
	r := s.Box(space.Box{nil, space.SetOf(0, 1)})
	below, sets := []space.Region{space.Full}, []uint64{0b011}
	assert.True(t, s.Same(r, 1, below, sets))
	assert.False(t, s.Same(r, 0, below, sets), "another trait")
	assert.False(t, s.Same(r, 1, below, []uint64{0b101}), "other values")
	assert.False(t, s.Same(r, 1, []space.Region{r}, sets), "another region below")
	assert.False(t, s.Same(r, 1, []space.Region{space.Full, r}, []uint64{0b011, 0b100}), "one edge more")
}
