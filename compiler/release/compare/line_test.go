package compare_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/release/compare"
)

// numbered is the base with a trait of serial numbers, which the fitment rows tell apart.
func numbered(trait, extent, fits string) string {
	return fmt.Sprintf("-- c.xlsx/Traits --\nTrait\tValue\tKind\tHow to tell\nSuspension\tAir\t\tlook\nSuspension\tSteel\t\tlook\n%[1]s\t%[2]s\tserial\tlook\n"+
		"-- c.xlsx/Vehicles --\nPlatform\tSuspension\t%[1]s\tOn the road\nH7\tAir\tany\t900\n"+
		"-- c.xlsx/Fitment --\nPlatform\t%[1]s\tDamper\n%[3]s", trait, extent, fits)
}

// TestNumbersThatSayOtherwise holds that each number is compared, and that vehicles on the road
// are spread by how many numbers there are.
func TestNumbersThatSayOtherwise(t *testing.T) {
	old := numbered("Plate", "100-999", "H7\tto 499\tQX-1\nH7\t500+\tQX-2\n")
	assert.Empty(t, between(t, old, numbered("Plate", "100-999", "H7\tto 299\tQX-1\nH7\t300-499\tQX-1\nH7\tfrom 500\tQX-2\n")))
	assert.Equal(t, []string{"changed H7 Damper: 2 QX-2 C3 -> 2 QX-1 C2: 6, 100 on the road, Plate 500 to 599"},
		between(t, old, numbered("Plate", "100-999", "H7\tto 599\tQX-1\nH7\tnot to 599\tQX-2\n")))
	assert.Equal(t, []string{"vanished H7 false: 6, 100 on the road, Plate 900 to 999"},
		between(t, old, numbered("Plate", "100-899", "H7\tto 499\tQX-1\nH7\t500+\tQX-2\n")))
}

// TestARenamedNumber holds that a trait on a line is known under another name by what there is.
func TestARenamedNumber(t *testing.T) {
	fits := "H7\tto 499\tQX-1\nH7\t500+\tQX-2\n"
	old := numbered("Plate", "100-999", fits)
	assert.Equal(t, []string{"trait: Plate is Chassis number"}, between(t, old, numbered("Chassis number", "100-999", fits)))
	assert.Contains(t, between(t, old, numbered("Chassis number", "100-998", fits)), "split H7 by Plate, dropped true")
}

// TestANumberThatWasAChoice holds that a trait of another kind is another one, whatever its name.
func TestANumberThatWasAChoice(t *testing.T) {
	choice := "-- c.xlsx/Traits --\nTrait\tValue\tHow to tell\nSuspension\tAir\tlook\nSuspension\tSteel\tlook\nPlate\t100\tlook\nPlate\t200\tlook\n" +
		"-- c.xlsx/Vehicles --\nPlatform\tSuspension\tPlate\tOn the road\nH7\tAir\tany\t900\n" +
		"-- c.xlsx/Fitment --\nPlatform\tPlate\tDamper\nH7\tany\tQX-1\n"
	assert.Equal(t, []string{"split H7 by Plate, dropped false", "split H7 by Plate, dropped true"},
		between(t, choice, numbered("Plate", "100-999", "H7\tany\tQX-1\n")))
}

// TestVehiclesThatABreakTakes holds that vehicles which are gone because of a Breaks row say so
// with its cell, also where the earlier release has such rows of its own.
func TestVehiclesThatABreakTakes(t *testing.T) {
	breaks := func(plate string) string {
		return numbered("Plate", "100-999", "H7\tany\tQX-1\n") + "-- c.xlsx/Breaks --\nPlatform\tTrait\tValue\tPlate\nH7\tSuspension\tAir\t" + plate + "\n"
	}
	rows := func(old, new string) []string {
		a, _ := release(t, old)
		b, _ := release(t, new)
		d, err := compare.Between(context.Background(), a, b, compare.Options{Today: "2027-03-01"})
		require.NoError(t, err)
		out := lines(d)
		for _, f := range d.Fleets {
			for _, at := range f.Breaks {
				out = append(out, at.String())
			}
		}
		return out
	}
	none := numbered("Plate", "100-999", "H7\tany\tQX-1\n")
	assert.Equal(t, []string{"vanished H7 false: 6, 600 on the road, Plate 400 to 999", "c.xlsx:Breaks!C2"}, rows(none, breaks("to 399")))
	assert.Equal(t, []string{"vanished H7 false: 6, 300 on the road, Plate 300 to 399", "c.xlsx:Breaks!C2"}, rows(breaks("to 399"), breaks("before 300")))
	assert.Equal(t, []string{"appeared H7 false: 6, 300 on the road, Plate 300 to 399", "c.xlsx:Breaks!C2"}, rows(breaks("before 300"), breaks("to 399")))
}

// TestAnUnrelatedCut holds that a finding about the same numbers stays known where another row
// cuts the line differently, and that of one that grew only the further numbers are new.
func TestAnUnrelatedCut(t *testing.T) {
	gap := func(fits string) string { return numbered("Plate", "100-999", fits) }
	old := gap("H7\tfrom 200\tQX-1\n")
	assert.Equal(t, []string{"coverage-gap: 6, 100 on the road, Plate 100 to 199 known"}, since(t, old, old))
	assert.Equal(t, []string{"coverage-gap: 6, 100 on the road, Plate 100 to 199 known"},
		since(t, old, gap("H7\t200-649\tQX-1\nH7\tfrom 650\tQX-2\n")))
	assert.Equal(t, []string{"coverage-gap: 6, 50 on the road, Plate 200 to 249", "coverage-gap: 6, 100 on the road, Plate 100 to 199 known"},
		since(t, old, gap("H7\tfrom 250\tQX-1\n")))
}
