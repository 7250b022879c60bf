package compare_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/release/compare"
)

// guarded is a catalogue in which something protects of every sort.
const guarded = `
-- c.xlsx/Traits --
Trait	Value	Kind	How to tell
Suspension	Air	choice	look
Suspension	Steel		look
Line	1/4 in	size	measure
Line	1/2 in		measure
-- c.xlsx/Vehicles --
Platform	Suspension	Line	On the road
H7	Air, Steel	1/4 in, 1/2 in	120
-- c.xlsx/Positions --
Position	Quantity	Suspension	Air line
Damper	2
Restrictor	1	Air	Line
-- c.xlsx/Parts --
Part	Family	Line size	Length [mm]	Cautions
QX-1	Damper		400	props
QX-2	Damper		410	props
QX-3	Restrictor	8x1 mm		props, air
QX-4	Restrictor	1/2 in
QX-5	Bar
-- c.xlsx/Compatibility --
Part	Family	With	Suspension	Effect	Reason
	Restrictor		Steel	forbid	it hunts
QX-1		QX-5		require	it is loose
QX-2			Air	caution	look twice
-- c.xlsx/Limits --
Limit	Position	Family	Left	Must be	Right	Effect
Long enough	Damper	Damper	Length	at least	300 mm	error
-- c.xlsx/Cautions --
Caution	Text	Level
props	Hold it by stands.	danger
air	Let the air out.	warning
`

// sheetOf gives one sheet of the guarded catalogue with something in it replaced; every
// old text must be there.
func edited(t *testing.T, pairs ...string) string {
	t.Helper()
	out := guarded
	for i := 0; i < len(pairs); i += 2 {
		require.Contains(t, out, pairs[i])
		out = strings.ReplaceAll(out, pairs[i], pairs[i+1])
	}
	return out
}

// lost gives what Guard tells of a change, a line each: the message, the part, the
// position, the vehicles and the cells.
func lost(t *testing.T, old, new string) []string {
	t.Helper()
	a, _ := release(t, old)
	b, _ := release(t, new)
	fs, err := compare.Guard(context.Background(), a, b, nil, compare.Options{Today: "2027-03-01"})
	require.NoError(t, err)
	var out []string
	for _, f := range fs {
		line := f.Message
		if f.Region != nil {
			line += " {" + f.Region.Open().Configurations.String() + "}"
		}
		for _, c := range f.Cells {
			line += " " + c.Sheet.Name + "!" + c.Pos.String()
			if c.Note != "" {
				line += " before"
			}
		}
		if f.Accepted != nil {
			line += " accepted"
		}
		out = append(out, line)
		assert.Contains(t, []finding.Code{finding.ProtectionLost, finding.ColumnPublished}, f.Code)
	}
	return out
}

func TestWhatProtectsNoMore(t *testing.T) {
	const forbid, require, caution = "\tRestrictor\t\tSteel\tforbid\tit hunts\n", "QX-1\t\tQX-5\t\trequire\tit is loose\n", "QX-2\t\t\tAir\tcaution\tlook twice\n"
	for _, c := range []struct {
		name string
		edit []string
		want []string
	}{
		{"a forbidding row is gone", []string{forbid, ""},
			[]string{`the earlier release said forbid the family Restrictor where Suspension Steel, and this one does not {12} Compatibility!B2 before`}},
		{"it only cautions", []string{"forbid\tit hunts", "caution\tit hunts"},
			[]string{`the earlier release said forbid the family Restrictor where Suspension Steel, and this one has only caution the family Restrictor where Suspension Steel {12} Compatibility!B2`}},
		{"it holds for fewer vehicles", []string{"Part\tFamily\tWith\tSuspension\t", "Part\tFamily\tWith\tYears\tSuspension\t", "\tRestrictor\t\tSteel", "\tRestrictor\t\t2006+\tSteel", "QX-5\t\trequire", "QX-5\t\t\trequire", "QX-2\t\t\tAir", "QX-2\t\t\t\tAir"},
			[]string{`the earlier release said forbid the family Restrictor where Suspension Steel, and this one has only forbid the family Restrictor where Years from 2006, Suspension Steel: it is gone for H7 2004 to 2005, Suspension Steel {4} Compatibility!B2`}},
		{"a part left its family", []string{"QX-4\tRestrictor", "QX-4\t"},
			[]string{`the earlier release said forbid the family Restrictor where Suspension Steel, and this one does not for QX-4 {12} Compatibility!B2 before`}},
		{"a required part is not required", []string{require, ""},
			[]string{`the earlier release said require QX-1 with QX-5, and this one does not {24} Compatibility!A3 before`}},
		{"a limit is only a warning", []string{"300 mm\terror", "300 mm\twarning"},
			[]string{`the earlier release said "Long enough": Length at least 300 mm, at Damper, of the family Damper, and this one has only "Long enough": Length at least 300 mm, at Damper, of the family Damper, as a warning Limits!A2`}},
		{"a limit is about another position", []string{"Long enough\tDamper", "Long enough\tRestrictor"},
			[]string{`the earlier release said "Long enough": Length at least 300 mm, at Damper, of the family Damper, and this one has only "Long enough": Length at least 300 mm, at Restrictor, of the family Damper Limits!A2`}},
		{"a limit leaves more", []string{"300 mm", "11 in"},
			[]string{`the earlier release said "Long enough": Length at least 300 mm, at Damper, of the family Damper, and this one has only "Long enough": Length at least 11 in, at Damper, of the family Damper Limits!A2`}},
		{"a caution is only a note", []string{"Hold it by stands.\tdanger", "Hold it by stands.\tnote"},
			[]string{`the earlier release had the danger "props" (Hold it by stands.), and this one has only a note Cautions!A2`}},
		{"a caution is gone", []string{"air\tLet the air out.\twarning\n", "", "props, air", "props"},
			[]string{`the earlier release had the warning "air" (Let the air out.), and this one does not Cautions!A3 before`}},
		{"a part has a caution no more", []string{"props, air", "air"},
			[]string{`the earlier release had the caution "props", and this one does not for QX-3 Parts!A4`}},
		{"one Line size is blank", []string{"QX-4\tRestrictor\t1/2 in", "QX-4\tRestrictor\t"},
			[]string{`the earlier release had the Line size 1/2 in of QX-4, and this one does not Parts!C5`}},
		{"a Line size has no wall", []string{"8x1 mm", "8 mm"},
			[]string{`the earlier release had the Line size 8x1 mm of QX-3, and this one has only 8 mm Parts!C4`}},
		{"all Line sizes are blank", []string{"QX-4\tRestrictor\t1/2 in", "QX-4\tRestrictor\t", "8x1 mm", ""},
			[]string{`the Line size of several parts (2) went since the earlier release: the Line size 8x1 mm of QX-3; the Line size 1/2 in of QX-4 Parts!C4 Parts!C5`}},
		{"an Air line is blank", []string{"Air\tLine\n", "Air\t\n"},
			[]string{`the earlier release had the Air line Line of Restrictor, and this one does not {12} Positions!D3`}},
		{"all rows of a sheet are gone", []string{forbid, "", require, "", caution, ""},
			[]string{`all rows of Compatibility (3) went since the earlier release: forbid the family Restrictor where Suspension Steel; require QX-1 with QX-5; caution QX-2 where Suspension Air Compatibility!B2 before Compatibility!A3 before Compatibility!A4 before`}},
	} {
		assert.Equal(t, c.want, lost(t, guarded, edited(t, c.edit...)), c.name)
	}
}

// TestSaidOtherwise holds that what says the same for the same parts and vehicles, or more,
// is no loss.
func TestSaidOtherwise(t *testing.T) {
	assert.Empty(t, lost(t, guarded, guarded))
	for name, edit := range map[string][]string{
		"two rows for one":           {"\tRestrictor\t\tSteel\tforbid\tit hunts\n", "QX-3\t\t\tSteel\tforbid\tit hunts\nQX-4\t\t\tSteel\tforbid\tit hunts\n"},
		"other words for vehicles":   {"\tRestrictor\t\tSteel", "\tRestrictor\t\tnot Air"},
		"another reason":             {"it hunts", "it would hunt for its height"},
		"more is forbidden":          {"\tRestrictor\t\tSteel", "\tRestrictor\t\t"},
		"forbidden for a caution":    {"caution\tlook twice", "forbid\tlook twice"},
		"forbidden for company":      {"QX-1\t\tQX-5\t\trequire", "QX-1\t\t\t\tforbid"},
		"another name of a limit":    {"Long enough", "Not too short"},
		"a limit the other way":      {"Length\tat least\t300 mm", "300 mm\tat most\tLength"},
		"a limit for every position": {"Long enough\tDamper", "Long enough\t"},
		"a stricter limit":           {"300 mm", "0.4 m"},
		"a stricter limit, turned":   {"Length\tat least\t300 mm", "301 mm\tat most\tLength"},
		"a family called otherwise":  {"Restrictor\t8x1", "Flow restrictor\t8x1", "Restrictor\t1/2", "Flow restrictor\t1/2", "\tRestrictor\t\tSteel", "\tFlow restrictor\t\tSteel"},
		"another key of a caution":   {"air\tLet", "air-out\tLet", "props, air", "props, air-out"},
		"another text of a caution":  {"Let the air out.", "Let all of the air out first."},
		"another Line size":          {"QX-4\tRestrictor\t1/2 in", "QX-4\tRestrictor\t1/4 in"},
		"a part is gone":             {"QX-2\tDamper\t\t410\tprops\n", "", "QX-2\t\t\tAir\tcaution\tlook twice\n", ""},
	} {
		assert.Empty(t, lost(t, guarded, edited(t, edit...)), name)
	}
}

// TestALimitBetweenTwoProperties holds that which of the two stands on the left makes no
// difference, but for which has to be the greater.
func TestALimitBetweenTwoProperties(t *testing.T) {
	limit := func(text string) string {
		return edited(t, "Cautions\nQX-1", "Cautions\tStroke [mm]\nQX-1", "400\tprops", "400\tprops\t90", "410\tprops", "410\tprops\t90",
			"Length\tat least\t300 mm", text)
	}
	old := limit("Length\tat least\tStroke")
	assert.Empty(t, lost(t, old, limit("Stroke\tat most\tLength")))
	assert.Len(t, lost(t, old, limit("Length\tat most\tStroke")), 1)
	assert.Len(t, lost(t, old, limit("Length\tequal to\tStroke")), 1)
}

// TestNothingToKeepApart holds that two parts that may not be fitted together are not told
// of where one of them is gone, and a part that has to go with another is.
func TestNothingToKeepApart(t *testing.T) {
	row, gone := "QX-1\t\tQX-5\t\trequire\tit is loose\n", "QX-5\tBar\n"
	apart := edited(t, row, "QX-1\t\tQX-5\t\tforbid\tthey touch\n")
	assert.Empty(t, lost(t, apart, edited(t, row, "", gone, "")))
	assert.Len(t, lost(t, apart, edited(t, row, "")), 1)
	assert.Len(t, lost(t, guarded, edited(t, row, "", gone, "")), 1)
}

// TestALossOnOnePlatform holds that a row about another platform protects nothing here.
func TestALossOnOnePlatform(t *testing.T) {
	two := func(rule string) string {
		return edited(t, "-- c.xlsx/Vehicles --\nPlatform\tSuspension\tLine\tOn the road\n", "-- c.xlsx/Platforms --\nPlatform\tYears\nH7\t2004-2009\nL4\t2004-2009\n-- c.xlsx/Vehicles --\nPlatform\tSuspension\tLine\tOn the road\nL4\tSteel\tn/a\t9\n",
			"Part\tFamily\tWith\tSuspension\t", "Part\tFamily\tWith\tPlatform\tSuspension\t", "\tRestrictor\t\tSteel", rule, "QX-5\t\trequire", "QX-5\t\t\trequire", "QX-2\t\t\tAir", "QX-2\t\t\t\tAir")
	}
	all := two("\tRestrictor\t\t\tSteel")
	assert.Equal(t, []string{"the earlier release said forbid the family Restrictor where Suspension Steel, and this one has only forbid the family Restrictor where Platform H7, Suspension Steel: it is gone for L4 {6} Compatibility!B2"},
		lost(t, all, two("\tRestrictor\t\tH7\tSteel")))
	assert.Empty(t, lost(t, all, two("\tRestrictor\t\tH7\tSteel\tforbid\tit hunts\n\tRestrictor\t\tL4\tSteel")))
}

func TestAnAcceptedLoss(t *testing.T) {
	accepted := "-- c.xlsx/Accepted --\nFinding\tPart\tReason\tBy\nprotection-lost\tQX-1\tthe bar is gone\tA. Person\n"
	got := lost(t, guarded, edited(t, "QX-1\t\tQX-5\t\trequire\tit is loose\n", "")+accepted)
	require.Len(t, got, 1)
	assert.Contains(t, got[0], "accepted")
	_, fs := release(t, guarded+accepted)
	for _, f := range fs {
		assert.NotEqual(t, finding.Code("accepted-unused"), f.Code, "only a comparison tells what the row is for")
	}
}

func TestWhatIsPublishedAnew(t *testing.T) {
	old := edited(t, "Length [mm]", "Length [mm]\tSupplier", "\t400\t", "\t400\tMill\t", "\t410\t", "\t410\tMill\t", "8x1 mm\t\t", "8x1 mm\t\t\t")
	public := old + "-- c.xlsx/Settings --\nSetting\tValue\npublic columns\tSupplier\n"
	assert.Equal(t, []string{"the earlier release did not publish Supplier of Parts, and this one does Parts!E2"}, lost(t, old, public))
	assert.Empty(t, lost(t, public, public))
	assert.Empty(t, lost(t, public, old))
}

// inspected is the guarded catalogue with inspections, the vehicle's as a whole first.
func inspected(t *testing.T, rows string) string {
	return edited(t, "\n-- c.xlsx/Limits --", "\n-- c.xlsx/Inspections --\nWhat to look at\tPosition\tSuspension\tLevel\tWhy\n"+rows+"\n-- c.xlsx/Limits --")
}

// TestInspectionsByVehicles holds that an inspection is lost where vehicles of both releases are not looked at any
// more, or less gravely, and nowhere else.
func TestInspectionsByVehicles(t *testing.T) {
	old := inspected(t, "the welds\tDamper\t\tdanger\tthey crack\nthe hoses\t\tAir\twarning\t\nthe plate\t\t\tnotice\t")
	for name, c := range map[string]struct {
		now  string
		want []string
	}{
		"nothing changed": {"the welds\tDamper\t\tdanger\tthey crack\nthe hoses\t\tAir\twarning\t", nil},
		"said otherwise":  {"The  welds\tDamper\tAir\tdanger\tlook\nthe welds\tDamper\tSteel\tdanger\t\nthe hoses\t\t\tdanger\t", nil},
		"fewer vehicles": {"the welds\tDamper\tAir\tdanger\t\nthe hoses\t\tAir\twarning\t",
			[]string{`the earlier release had the danger "the welds (Damper)", and this one has only one where Suspension Air: it is gone for H7 Suspension Steel {12} Inspections!A2`}},
		"a lower level on some": {"the welds\tDamper\tAir\tdanger\t\nthe welds\tDamper\tSteel\tnote\t\nthe hoses\t\tAir\twarning\t",
			[]string{`the earlier release had the danger "the welds (Damper)", and this one has only a note: it is gone for H7 Suspension Steel {12} Inspections!A3`}},
		"levels changed over": {"the welds\tDamper\tSteel\tdanger\t\nthe welds\tDamper\tAir\tnotice\t\nthe hoses\t\tAir\tdanger\t",
			[]string{`the earlier release had the danger "the welds (Damper)", and this one has only a notice: it is gone for H7 Suspension Air {12} Inspections!A3`}},
		"another place": {"the welds\tRestrictor\t\tdanger\t\nthe hoses\t\tAir\twarning\t",
			[]string{`the earlier release had the danger "the welds (Damper)", and this one does not {24} Inspections!A2 before`}},
	} {
		assert.Equal(t, c.want, lost(t, old, inspected(t, c.now)), name)
	}
}
