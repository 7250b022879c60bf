package compare_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// dampers has two parts of one family, and a row that forbids all of them on air.
const dampers = `
-- c.xlsx/Parts --
Part	Family	Line size
QX-1	Damper	3/8 in
QX-2	Damper	
`

// rule is a Compatibility row about the family.
func rule(effect string) string {
	return "-- c.xlsx/Compatibility --\nFamily\tSuspension\tEffect\tReason\nDamper\tAir\t" + effect + "\tthe bolt turns\n"
}

// cell is a fitment sheet that offers one thing on air.
func cell(text string) string {
	return "-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tAir\t" + text + "\nH7\tSteel\tQX-2\n"
}

// accepting is an Accepted sheet: each row is a code, years, a position and a part, with
// tabs between, and its own name under By.
func accepting(rows ...string) string {
	out := "-- c.xlsx/Accepted --\nFinding\tYears\tPosition\tPart\tUntil\tReason\tBy\n"
	for i, r := range rows {
		out += r + "\tseen\t" + string(rune('A'+i)) + "\n"
	}
	return out
}

const newlyForbidden = "unsettled H7 Damper: 2 QX-1 C2 -> 2 QX-1 (unsettled) C2: "

// TestAcceptedByTheFindingThatStands holds that nothing but an acceptance of the finding
// which stands behind what is said now quiets a difference: another code of those that make
// a fit unsettled does not, nor another position, part, year or a date that has passed.
func TestAcceptedByTheFindingThatStands(t *testing.T) {
	lines := "-- c.xlsx/Positions --\nPosition\tQuantity\nDamper\t2\nStay\t\n"
	all := newlyForbidden + "6, 60 on the road, Suspension Air"
	for _, row := range []string{
		"line-size-mismatch\t\tDamper\t\t", "companion-forbidden\t\t\t\t", "limit-broken\t\t\t\t", "limit-undefined\t\t\t\t",
		"fact-conflict\t\t\t\t", "fitment-conflict\t\t\t\t", "coverage-gap\t\t\t\t", "companion-missing\t\t\t\t",
		"part-forbidden\t\tStay\t\t", "part-forbidden\t\t\tQX-2\t", "part-forbidden\t1990\t\t\t", "part-forbidden\t\t\t\t2027-02-28",
	} {
		assert.Equal(t, []string{all}, between(t, dampers+lines+rule("caution"), dampers+lines+rule("forbid")+accepting(row)), row)
	}
	for _, row := range []string{"part-forbidden\t\t\t\t", "part-forbidden\t\tDamper\tQX-1\t2027-03-01"} {
		assert.Equal(t, []string{all + " accepted by A"}, between(t, dampers+lines+rule("caution"), dampers+lines+rule("forbid")+accepting(row)), row)
	}
	assert.Equal(t, []string{newlyForbidden + "1, 10 on the road, 2004, Suspension Air accepted by A", newlyForbidden + "5, 50 on the road, 2005 to 2009, Suspension Air"},
		between(t, dampers+lines+rule("caution"), dampers+lines+rule("forbid")+accepting("part-forbidden\t2004\t\t\t")))
}

// TestTwoFindingsNeedTwoAcceptances holds that a difference is accepted only where every
// finding behind it is: those of two parts, and those of two codes.
func TestTwoFindingsNeedTwoAcceptances(t *testing.T) {
	two := "unsettled H7 Damper: 2 QX-1 or 2 QX-2 C2 -> 2 QX-1 or 2 QX-2 (unsettled) C2: "
	old, new := dampers+cell("QX-1 or QX-2")+rule("caution"), dampers+cell("QX-1 or QX-2")+rule("forbid")
	assert.Equal(t, []string{two + "6, 60 on the road, Suspension Air"}, between(t, old, new+accepting("part-forbidden\t\t\tQX-1\t")))
	assert.Equal(t, []string{two + "2, 20 on the road, 2004 to 2005, Suspension Air accepted by A", two + "4, 40 on the road, 2006 to 2009, Suspension Air"},
		between(t, old, new+accepting("part-forbidden\t\t\tQX-1\t", "part-forbidden\tto 2005\t\tQX-2\t")))

	line := "-- c.xlsx/Traits --\nTrait\tValue\tKind\tHow to tell\nSuspension\tAir\t\tlook\nSuspension\tSteel\t\tlook\nLine\t3/8 in\tsize\tlook\nLine\t1/2 in\t\tlook\n" +
		"-- c.xlsx/Vehicles --\nPlatform\tSuspension\tLine\tOn the road\nH7\tAir, Steel\t1/2 in\t120\n" +
		"-- c.xlsx/Positions --\nPosition\tQuantity\tAir line\nDamper\t2\t"
	assert.Equal(t, []string{newlyForbidden + "6, 60 on the road, Suspension Air"},
		between(t, line+"\n"+dampers+rule("caution"), line+"Line\n"+dampers+rule("forbid")+accepting("part-forbidden\t\t\t\t")))
	assert.Equal(t, []string{newlyForbidden + "6, 60 on the road, Suspension Air accepted by A"},
		between(t, line+"\n"+dampers+rule("caution"), line+"Line\n"+dampers+rule("forbid")+accepting("part-forbidden\t\t\t\t", "line-size-mismatch\t\t\t\t")))
}

// TestAcceptedWhateverWasSaid holds that what counts is what is said now: a right
// acceptance counts also where a wrong fit, or a conflict, was there before.
func TestAcceptedWhateverWasSaid(t *testing.T) {
	new := dampers + cell("QX-2") + rule("forbid") + accepting("part-forbidden\t\t\t\t")
	assert.Equal(t, []string{"changed H7 Damper: 2 QX-1 (unsettled) C2 -> 2 QX-2 (unsettled) C2: 6, 60 on the road, Suspension Air accepted by A"},
		between(t, dampers+cell("QX-1")+rule("forbid"), new))
	assert.Equal(t, []string{"changed H7 Damper: conflict C2 C3 -> 2 QX-2 (unsettled) C2: 6, 60 on the road, Suspension Air accepted by A"},
		between(t, dampers+cell("QX-1\nH7\tAir\tQX-2")+rule("forbid"), new))
	assert.Empty(t, between(t, cell("QX-1\nH7\tAir\tQX-2"), cell("QX-1\nH7\tAir\tnone: no lugs")), "one conflict and another")
}

// TestNoFindingNoAcceptance holds that where nothing has to be said no finding stands
// behind a gap, so that no row can name it.
func TestNoFindingNoAcceptance(t *testing.T) {
	optional := "-- c.xlsx/Positions --\nPosition\tQuantity\tCoverage\nDamper\t2\toptional\n"
	assert.Equal(t, []string{"lost H7 Damper: 2 QX-1 C2 -> gap: 6, 60 on the road, Suspension Air"},
		between(t, optional, optional+cell("")+accepting("coverage-gap\t\t\t\t")))
}

// TestDisputedFacts holds that where facts disagree a fit is unsettled whether or not the
// part states what the limit needs. The disagreement names no position and no part, and
// one about a fact that no limit needs makes no difference.
func TestDisputedFacts(t *testing.T) {
	catalogue := func(travel string) string {
		return "-- c.xlsx/Parts --\nPart\tFamily\tLength\nQX-1\tDamper\t\nQX-2\tDamper\t250 mm\n" +
			"-- c.xlsx/Limits --\nLimit\tLeft\tMust be\tRight\nLong enough\tLength\tat least\tTravel\n" +
			"-- c.xlsx/Facts --\nPlatform\tTravel\tHeight\nH7\t240 mm\t1 m\nH7\t" + travel + "\n"
	}
	old, new := catalogue("240 mm\t2 m"), catalogue("245 mm\t2 m")
	air, steel := newlyForbidden+"6, 60 on the road, Suspension Air", "unsettled H7 Damper: 2 QX-2 C3 -> 2 QX-2 (unsettled) C3: 6, 60 on the road, Suspension Steel"
	assert.Equal(t, []string{air, steel}, between(t, old, new))
	assert.Equal(t, []string{air + " accepted by A", steel + " accepted by A"}, between(t, old, new+accepting("fact-conflict\t\t\t\t")))
	for _, row := range []string{"fact-conflict\t\tDamper\t\t", "fact-conflict\t\t\tQX-1\t", "property-missing\t\t\t\t"} {
		assert.Equal(t, []string{air, steel}, between(t, old, new+accepting(row)), row)
	}
}
