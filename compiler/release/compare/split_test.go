package compare_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// lift is the base with a trait more.
const lift = `
-- c.xlsx/Traits --
Trait	Value	How to tell
Suspension	Air	look
Suspension	Steel	look
Lift axle	Yes	look
Lift axle	No	look
`

// TestATraitSplitsVehicles holds that a trait which is taken up makes no vehicle vanish:
// what OLD says of a vehicle it says of both kinds.
func TestATraitSplitsVehicles(t *testing.T) {
	split := lift + "-- c.xlsx/Vehicles --\nPlatform\tSuspension\tLift axle\tOn the road\nH7\tAir, Steel\tYes, No\t120\n"
	assert.Empty(t, between(t, "", lift), "nobody has the trait")
	assert.Equal(t, []string{"split H7 by Lift axle, dropped false"}, between(t, "", split))
	assert.Equal(t, []string{"split H7 by Lift axle, dropped true"}, between(t, split, ""))

	fits := "-- c.xlsx/Fitment --\nPlatform\tSuspension\tLift axle\tDamper\nH7\tAir\tNo\tQX-1\nH7\tAir\tYes\tQX-2\nH7\tSteel\t\tQX-2\n"
	assert.Equal(t, []string{"split H7 by Lift axle, dropped false",
		"changed H7 Damper: 2 QX-1 C2 -> 2 QX-2 D3: 6, 30 on the road, Suspension Air, Lift axle Yes"},
		between(t, "", split+fits))
	assert.Equal(t, []string{"split H7 by Lift axle, dropped true",
		"changed H7 Damper: 2 QX-2 D3 -> 2 QX-1 C2: 6, 60 on the road, Suspension Air, Lift axle Yes"},
		between(t, split+fits, ""), "each vehicle of NEW stands for both, and counts whole on the road")
}

// TestASplitTakesVehiclesAway holds that what is left of a vehicle is what has the other
// traits, whatever the new one says.
func TestASplitTakesVehiclesAway(t *testing.T) {
	assert.Equal(t, []string{"split H7 by Lift axle, dropped false",
		"vanished H7 false: 6, 60 on the road, Suspension Steel"},
		between(t, "", lift+"-- c.xlsx/Vehicles --\nPlatform\tSuspension\tLift axle\tOn the road\nH7\tAir\tYes, No\t120\n"))
	assert.Equal(t, []string{"split H7 by Lift axle, dropped false",
		"appeared H7 false: 2, 240 on the road, 2010"},
		between(t, "", lift+"-- c.xlsx/Platforms --\nPlatform\tYears\nH7\t2004-2010\n"+
			"-- c.xlsx/Vehicles --\nPlatform\tYears\tSuspension\tLift axle\tOn the road\nH7\tto 2009\tAir, Steel\tYes\t120\nH7\t2010\tAir\tYes, No\t240\n"))
}

// TestARowAboutAnUnusedTrait holds that a row which asks for a value that OLD's vehicles
// did not have said nothing there, and one that asks that they have none said so of all.
func TestARowAboutAnUnusedTrait(t *testing.T) {
	vehicles := "-- c.xlsx/Vehicles --\nPlatform\tSuspension\tLift axle\tOn the road\nH7\tAir, Steel\tYes, No\t120\n"
	fits := lift + "-- c.xlsx/Fitment --\nPlatform\tLift axle\tDamper\nH7\tn/a\tQX-1\nH7\tYes\tQX-2\n"
	assert.Equal(t, []string{"split H7 by Lift axle, dropped false",
		"changed H7 Damper: 2 QX-1 C2 -> 2 QX-2 C3: 12, 60 on the road, Lift axle Yes",
		"lost H7 Damper: 2 QX-1 C2 -> gap: 12, 60 on the road, Lift axle No"},
		between(t, fits, fits+vehicles))
}

// TestOneTraitForAnother holds that where a platform gives up a trait and takes up one,
// every value of the one is held against every value of the other.
func TestOneTraitForAnother(t *testing.T) {
	traits := func(name string, values ...string) string {
		text := "-- c.xlsx/Traits --\nTrait\tValue\tHow to tell\n"
		for _, v := range values {
			text += name + "\t" + v + "\tlook\n"
		}
		return text
	}
	old := traits("Frame", "Short", "Long") + "-- c.xlsx/Vehicles --\nPlatform\tFrame\tOn the road\nH7\tShort, Long\t120\n" +
		"-- c.xlsx/Fitment --\nPlatform\tFrame\tDamper\nH7\tShort\tQX-1\nH7\tLong\tQX-2\n"
	new := traits("Load", "Light", "Middle", "Heavy") + "-- c.xlsx/Vehicles --\nPlatform\tLoad\tOn the road\nH7\tLight, Middle, Heavy\t120\n" +
		"-- c.xlsx/Fitment --\nPlatform\tLoad\tDamper\nH7\tLight, Middle\tQX-1\nH7\tHeavy\tQX-2\n"
	assert.Equal(t, []string{"split H7 by Load, dropped false", "split H7 by Frame, dropped true",
		"changed H7 Damper: 2 QX-2 C3 -> 2 QX-1 C2: 12, 80 on the road, Load Light or Middle, Frame Long",
		"changed H7 Damper: 2 QX-1 C2 -> 2 QX-2 C3: 6, 40 on the road, Load Heavy, Frame Short"},
		between(t, old, new))
}
