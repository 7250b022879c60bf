package drag

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestClimbing holds which texts follow each other, and which of their numbers climbs.
func TestClimbing(t *testing.T) {
	for _, c := range []struct {
		a, b  string
		climb climb
		ok    bool
	}{
		{"10", "11", whole, true},
		{"9", "10", whole, true},
		{"HD-20", "HD-21", single, true},
		{"HD-009", "HD-010", single, true},
		{"HD-09", "HD-010", 0, false},
		{"2003-2010", "2003-2011", last, true},
		{"2003-2010", "2004-2010", first, true},
		{"2003-2010", "2004-2011", both, true},
		{"1/4 in", "1/5 in", last, true},
		{"2027-01-31", "2027-02-01", 0, false},
		{"10", "12", 0, false},
		{"11", "10", 0, false},
		{"HD-20", "HD-20", 0, false},
		{"HD-20", "HE-21", 0, false},
		{"HD-20", "HD-21a", 0, false},
		{"99999999999999999999", "100000000000000000000", 0, false},
		{"", "1", 0, false},
	} {
		got, ok := climbing(c.a, c.b)
		assert.Equal(t, c.ok, ok, "%q %q", c.a, c.b)
		if ok {
			assert.Equal(t, c.climb, got, "%q %q", c.a, c.b)
		}
	}
}
