package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"
)

// TestAcceptedVehiclesAreNamed holds that the vehicles of a finding are told apart by what
// an Accepted row names, also where no row of the position names it: what is accepted on
// one line size is told with that size, and what is left with the other.
func TestAcceptedVehiclesAreNamed(t *testing.T) {
	found := caseFindings(t, txtar.Parse([]byte(`
-- c.xlsx/Fitment --
Platform	Suspension	Line	Damper	Restrictor
H7	Steel		D-2	
H7		1/4 in		R-14
H7		1/2 in		R-12
-- c.xlsx/Accepted --
Finding	Position	Line	Reason	By
coverage-gap	Damper	1/4 in	seen	desk
`)), 0)
	where := map[bool][]string{}
	for _, f := range found {
		if f.Code != "coverage-gap" {
			continue
		}
		require.NotNil(t, f.Region)
		assert.Equal(t, "4", count(f))
		for _, b := range f.Region.Where {
			where[f.Accepted != nil] = append(where[f.Accepted != nil], b.String())
		}
	}
	assert.Equal(t, map[bool][]string{true: {"Line 1/4 in"}, false: {"Line 1/2 in"}}, where)
}
