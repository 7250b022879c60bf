package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"
)

// TestAcceptedVehiclesAreNamed holds that the vehicles of a finding are told apart by what
// an Accepted row names, also where no row of the position names it and another trait would
// do: what is accepted on one line size is told with that size, and what is left with the
// other.
func TestAcceptedVehiclesAreNamed(t *testing.T) {
	found := caseFindings(t, txtar.Parse([]byte(`
-- c.xlsx/Traits --
Trait	Value	Kind	How to tell
Suspension	Air	choice	An air spring at each end of the axle.
Suspension	Steel		A pack of leaves at each side.
Line	1/4 in	size	Measure across the tube.
Line	1/2 in		Measure across the tube.
Cab	Long	choice	Two doors on each side.
Cab	Short		One door on each side.
-- c.xlsx/Vehicles --
Platform	Years	Cab	Suspension	Line
H7	any	Long	Air	1/4 in
H7	any	Short	Air	1/2 in
H7	2003-2004	n/a	Steel	n/a
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
		for _, b := range f.Region.Open().Where {
			where[f.Accepted != nil] = append(where[f.Accepted != nil], b.String())
		}
	}
	assert.Equal(t, map[bool][]string{true: {"Line 1/4 in"}, false: {"Line 1/2 in"}}, where)
}
