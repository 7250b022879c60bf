package compare_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/release/compare"
)

// edit changes words of the base's sheets.
func edit(pairs ...string) string { return strings.NewReplacer(pairs...).Replace(base) }

func TestRenames(t *testing.T) {
	for _, c := range []struct {
		name, old, new string
		want           []string
	}{
		{"platform", "", edit("H7", "H7 Long"), []string{"platform: H7 is H7 Long"}},
		{"trait", "", edit("Suspension", "Springing"), []string{"trait: Suspension is Springing"}},
		{"value", "", edit("Air", "Air beam"), []string{"value Suspension: Air is Air beam"}},
		{"two values, which the dampers tell apart", "", edit("Air", "Air beam", "Steel", "Leaf"),
			[]string{"value Suspension: Air is Air beam", "value Suspension: Steel is Leaf"}},
		{"position", "", edit("Damper\t2", "Front damper\t2", "Suspension\tDamper\n", "Suspension\tFront damper\n"),
			[]string{"position: Damper is Front damper"}},
		{"part, by its role", "", edit("QX-1", "QX-9"), []string{"part: QX-1 is QX-9"}},
		{"two parts", "", edit("QX-1", "QX-8", "QX-2", "QX-9"), []string{"part: QX-1 is QX-8", "part: QX-2 is QX-9"}},
	} {
		assert.Equal(t, c.want, between(t, c.old, c.new), c.name)
	}
}

// TestAPartAtARenamedPosition holds that a part which stands only where the position was
// renamed as well is not known by its role, and that then neither is claimed.
func TestAPartAtARenamedPosition(t *testing.T) {
	got := between(t, "", edit("QX-1", "QX-8", "Damper\t2", "Front damper\t2", "Suspension\tDamper\n", "Suspension\tFront damper\n", "Air", "Air beam"))
	assert.Equal(t, []string{"value Suspension: Air is Air beam",
		"gained H7 Front damper: nowhere -> 2 QX-8 C2: 6, 60 on the road, Suspension Air beam",
		"gained H7 Front damper: nowhere -> 2 QX-2 C3: 6, 60 on the road, Suspension Steel",
		"lost H7 Damper: 2 QX-1 C2 -> nowhere: 6, 60 on the road, Suspension Air beam",
		"lost H7 Damper: 2 QX-2 C3 -> nowhere: 6, 60 on the road, Suspension Steel"}, got)
}

// TestOneSize holds that a size written in the other unit is the same value.
func TestOneSize(t *testing.T) {
	sizes := func(size string) string {
		return "-- c.xlsx/Traits --\nTrait\tValue\tKind\tHow to tell\nLine\t" + size + "\tsize\tlook\nLine\t1/4 in\t\tlook\n" +
			"-- c.xlsx/Vehicles --\nPlatform\tLine\tOn the road\nH7\tany\t120\n" +
			"-- c.xlsx/Fitment --\nPlatform\tLine\tDamper\nH7\t" + size + "\tQX-1\nH7\t1/4 in\tQX-2\n"
	}
	assert.Empty(t, between(t, sizes("1/2 in"), sizes("12.7 mm")))
	assert.NotEmpty(t, between(t, sizes("5/16 in"), sizes("8 mm")), "they are not the same size")
}

// TestNothingIsClaimedWhereItIsNotSure holds what is not told as a rename.
func TestNothingIsClaimedWhereItIsNotSure(t *testing.T) {
	one := "-- c.xlsx/Fitment --\nPlatform\tDamper\nH7\tQX-1\n"
	for name, c := range map[string]struct{ old, new string }{
		"two values that nothing tells apart": {one, strings.NewReplacer("Air", "Air beam", "Steel", "Leaf").Replace(base) + one},
		"a value that others have": {"", edit("Air", "Air beam") +
			"-- c.xlsx/Vehicles --\nPlatform\tYears\tSuspension\tOn the road\nH7\t\tSteel\t60\nH7\t2005+\tAir beam\t60\n"},
		"a trait with other values":              {"", edit("Suspension", "Springing", "Steel", "Leaf")},
		"a part of which NEW still declares":     {"", base + "-- c.xlsx/Parts --\nPart\nQX-1\nQX-2\nQX-9\n-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tAir\tQX-9\nH7\tSteel\tQX-2\n"},
		"a part that is replaced here and there": {one, "-- c.xlsx/Parts --\nPart\nQX-8\nQX-9\n-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tAir\tQX-8\nH7\tSteel\tQX-9\n"},
		"a position where nothing is fitted": {"-- c.xlsx/Fitment --\nPlatform\tDamper\nH7\tnone\n",
			"-- c.xlsx/Positions --\nPosition\tQuantity\nBushing\t2\n-- c.xlsx/Fitment --\nPlatform\tBushing\nH7\tnone\n"},
	} {
		got := between(t, c.old, c.new)
		assert.NotEmpty(t, got, name)
		for _, line := range got {
			assert.NotRegexp(t, `^(platform|trait|value .*|position|part): `, line, name)
		}
	}
}

// TestStatedRenames holds what References and Replaced by say of part numbers that both
// releases declare.
func TestStatedRenames(t *testing.T) {
	fits := "-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tAir\tQX-9\nH7\tSteel\tQX-2\n"
	parts := "-- c.xlsx/Parts --\nPart\tStatus\tReplaced by\nQX-1\tsuperseded\tQX-9\nQX-2\nQX-9\n"
	assert.Equal(t, []string{"part: QX-1 is QX-9"}, between(t, "", parts+fits))
	former := "-- c.xlsx/Parts --\nPart\nQX-2\nQX-9\n-- c.xlsx/References --\nNumber\tPart\tKind\nQX-1\tQX-9\tformer\n"
	assert.Equal(t, []string{"part: QX-1 is QX-9"}, between(t, "", former+fits))

	// A rename hides nothing: where the new one is not, the old one is lost.
	less := "-- c.xlsx/Fitment --\nPlatform\tYears\tSuspension\tDamper\nH7\t2004-2008\tAir\tQX-9\nH7\t\tSteel\tQX-2\n"
	assert.Equal(t, []string{"part: QX-1 is QX-9", "lost H7 Damper: 2 QX-1 C2 -> gap: 1, 10 on the road, 2009, Suspension Air"},
		between(t, "", former+less))
	// The number of someone else, and one of a part that is not declared, were no names of ours.
	others := strings.NewReplacer("QX-1\tQX-9\tformer", "QX-1\tQX-9\tother\nQX-1\tQX-7\tformer").Replace(former)
	for _, line := range between(t, "", others+less) {
		assert.NotContains(t, line, "part: ")
	}
	// One that is offered in both releases is no rename, whatever is stated.
	both := "-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tAir\tQX-9\nH7\tSteel\tQX-1\n"
	assert.Equal(t, []string{"changed H7 Damper: 2 QX-1 C2 -> 2 QX-9 C2: 6, 60 on the road, Suspension Air",
		"changed H7 Damper: 2 QX-2 C3 -> 2 QX-1 C3: 6, 60 on the road, Suspension Steel"}, between(t, "", parts+both))
}

// TestARenamedPartInAKit holds that parts are followed into kits.
func TestARenamedPartInAKit(t *testing.T) {
	kit := func(part string) string {
		return "-- c.xlsx/Parts --\nPart\n" + part + "\nQX-2\n-- c.xlsx/Kits --\nKit\tPart\tQuantity\nK-1\t" + part + "\t2\nK-1\tQX-2\t1\n" +
			"-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tAir\tK-1\nH7\tSteel\t" + part + " or QX-2\n"
	}
	assert.Equal(t, []string{"part: QX-1 is QX-9"}, between(t, kit("QX-1"), kit("QX-9")))
}

// TestPlatformsWithTheSameVehicles holds that two platforms which only what is fitted tells
// apart are known by that, and not where it is too irregular to be worked out.
func TestPlatformsWithTheSameVehicles(t *testing.T) {
	two := func(first, second, rows string) string {
		return fmt.Sprintf("-- c.xlsx/Platforms --\nPlatform\tYears\n%s\t2004-2009\n%[2]s\t2004-2009\n"+
			"-- c.xlsx/Vehicles --\nPlatform\tSuspension\tOn the road\n%[1]s\tAir, Steel\t120\n%[2]s\tAir, Steel\t80\n"+
			"-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\n", first, second) + rows
	}
	old, _ := release(t, two("H7", "H8", "H7\tAir\tQX-1\nH7\tSteel\tQX-2\nH8\tany\tQX-2\n"))
	new, _ := release(t, two("L7", "L8", "L7\tnot Steel\tQX-1\nL7\tnot Air\tQX-2\nL8\tAir\tQX-2\nL8\tSteel\tQX-2\n"))
	renamed := func() []string {
		d, err := compare.Between(context.Background(), old, new, compare.Options{Today: "2027-03-01"})
		require.NoError(t, err)
		return lines(d)[:len(d.Renames)]
	}
	assert.Equal(t, []string{"platform: H7 is L7", "platform: H8 is L8"}, renamed())
	old.Guides[0].Answers[0].Exact = false
	assert.Equal(t, []string{"platform: H8 is L8"}, renamed())
	old.Guides[1].Answers[0].Exact = false
	assert.Empty(t, renamed())
}
