package compare_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/release/compare"
)

// since gives NEW's errors and warnings, a line each, those that OLD has marked.
func since(t *testing.T, old, new string) []string {
	t.Helper()
	a, before := release(t, old)
	b, now := release(t, new)
	fs, err := compare.Since(context.Background(), a, b, before, now, compare.Options{Today: "2027-03-01"})
	require.NoError(t, err)
	finding.Sort(fs)
	var out []string
	for _, f := range fs {
		if f.Severity == finding.Note {
			continue
		}
		line := string(f.Code)
		if f.Region != nil {
			line += ": " + region(f.Region.Open())
		}
		if f.Known {
			line += " known"
		}
		if f.Accepted != nil {
			line += " accepted"
		}
		out = append(out, line)
	}
	return out
}

func TestAFindingThatGrew(t *testing.T) {
	fits := func(years string) string {
		return fmt.Sprintf("-- c.xlsx/Fitment --\nA title\nPlatform\tYears\tSuspension\tDamper\nH7\t%s\tAir\tQX-1\nH7\t\tSteel\tQX-2\n", years)
	}
	assert.Equal(t, []string{"coverage-gap: 1, 10 on the road, 2009, Suspension Air"}, since(t, "", fits("to 2008")))
	assert.Equal(t, []string{"coverage-gap: 1, 10 on the road, 2009, Suspension Air known"}, since(t, fits("to 2008"), fits("to 2008")))
	assert.Equal(t, []string{"coverage-gap: 2, 20 on the road, 2007 to 2008, Suspension Air",
		"coverage-gap: 1, 10 on the road, 2009, Suspension Air known"}, since(t, fits("to 2008"), fits("to 2006")))
	assert.Equal(t, []string{"coverage-gap: 1, 10 on the road, 2009, Suspension Air known"}, since(t, fits("to 2006"), fits("to 2008")), "it shrank")
}

// TestAMovedConflict holds that neither a row that is inserted above nor another order of
// the two rows makes a conflict new, and other words do.
func TestAMovedConflict(t *testing.T) {
	rows := func(text string) string { return "-- c.xlsx/Fitment --\nPlatform\tDamper\n" + text }
	old := rows("H7\tQX-1\nH7\tQX-2\n")
	known := []string{"fitment-conflict: 12, 120 on the road, all known"}
	assert.Equal(t, known, since(t, old, old))
	assert.Equal(t, known, since(t, old, rows("\n\nH7\tQX-2\nH7\tQX-1\n")))
	assert.Equal(t, []string{"fitment-conflict: 12, 120 on the road, all"}, since(t, old, rows("H7\tQX-1\nH7\tQX-1 or QX-2\n")))
}

// TestFindingsWithoutVehicles holds that of findings which say the same as many are known
// as OLD has.
func TestFindingsWithoutVehicles(t *testing.T) {
	parts := func(rows string) string { return "-- c.xlsx/Parts --\nPart\tStatus\nQX-1\nQX-2\n" + rows }
	one := parts("QX-3\tcurent\n")
	assert.Equal(t, []string{"value-invalid"}, since(t, "", one))
	assert.Equal(t, []string{"value-invalid known"}, since(t, one, parts("\nQX-3\tcurent\n")))
	assert.Equal(t, []string{"value-invalid", "value-invalid known"}, since(t, one, parts("QX-3\tcurent\nQX-4\tcurent\n")))
	assert.Equal(t, []string{"value-invalid"}, since(t, one, parts("QX-3\tsuperceded\n")), "another word is another finding")
}

// TestARenameMakesNothingNew holds that a finding is known under its new name.
func TestARenameMakesNothingNew(t *testing.T) {
	gap := "-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tSteel\tQX-2\n"
	known := []string{"coverage-gap: 6, 60 on the road, Suspension Air known"}
	assert.Equal(t, known, since(t, gap, gap))
	new := edit("H7", "H7 Long") + "-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7 Long\tSteel\tQX-2\n"
	assert.Equal(t, known, since(t, gap, new))
}

// TestSeverityAndAcceptance holds that a warning which became an error is new, and that
// an acceptance of OLD makes nothing known.
func TestSeverityAndAcceptance(t *testing.T) {
	gap := "-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tSteel\tQX-2\n"
	wanted := "-- c.xlsx/Positions --\nPosition\tQuantity\tCoverage\nDamper\t2\twanted\n"
	assert.Equal(t, []string{"coverage-gap: 6, 60 on the road, Suspension Air"}, since(t, gap+wanted, gap))
	accepted := "-- c.xlsx/Accepted --\nFinding\tReason\tBy\ncoverage-gap\tin spring\tN. N.\n"
	assert.Equal(t, []string{"coverage-gap: 6, 60 on the road, Suspension Air"}, since(t, gap+accepted, gap))
	assert.Equal(t, []string{"coverage-gap: 6, 60 on the road, Suspension Air accepted"}, since(t, gap, gap+accepted))
}

// TestSinceASplit holds that a finding about vehicles which a trait has split is known of
// both kinds, and that of vehicles which were not there it is new.
func TestSinceASplit(t *testing.T) {
	gap := "-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tSteel\tQX-2\n"
	split := lift + "-- c.xlsx/Vehicles --\nPlatform\tSuspension\tLift axle\tOn the road\nH7\tAir, Steel\tYes, No\t120\n"
	assert.Equal(t, []string{"coverage-gap: 12, 60 on the road, Suspension Air known"}, since(t, gap, gap+split))
	// Taken back, the gap of vehicles with and without the axle is that of all; if it was
	// one of the two kinds, the other is new to it.
	half := split + "-- c.xlsx/Fitment --\nPlatform\tSuspension\tLift axle\tDamper\nH7\tSteel\t\tQX-2\nH7\tAir\tNo\tQX-1\n"
	assert.Equal(t, []string{"coverage-gap: 6, 60 on the road, Suspension Air"}, since(t, half, gap))
	more := "-- c.xlsx/Platforms --\nPlatform\tYears\nH7\t2004-2010\n"
	assert.Equal(t, []string{"coverage-gap: 1, 60/7 on the road, 2010, Suspension Air",
		"coverage-gap: 6, 360/7 on the road, 2004 to 2009, Suspension Air known"}, since(t, gap, gap+more))
}
