package compare_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/release/compare"
	"ferrule/out/markup"
)

// base is a small catalogue, sheet by sheet. Tests replace sheets of it.
const base = `
-- c.xlsx/Platforms --
Platform	Years
H7	2004-2009
-- c.xlsx/Traits --
Trait	Value	How to tell
Suspension	Air	look
Suspension	Steel	look
-- c.xlsx/Vehicles --
Platform	Suspension	On the road
H7	Air, Steel	120
-- c.xlsx/Positions --
Position	Quantity
Damper	2
-- c.xlsx/Parts --
Part	Name
QX-1	Damper
QX-2	Damper, heavy
-- c.xlsx/Fitment --
Platform	Suspension	Damper
H7	Air	QX-1
H7	Steel	QX-2
`

// release compiles the base with some sheets in place of its own; a sheet without lines
// is left out.
func release(t *testing.T, sheets string) (*compare.Release, []*finding.Finding) {
	t.Helper()
	a := txtar.Parse([]byte(base))
	for _, f := range txtar.Parse([]byte(sheets)).Files {
		if i := slices.IndexFunc(a.Files, func(g txtar.File) bool { return g.Name == f.Name }); i >= 0 {
			a.Files[i] = f
		} else {
			a.Files = append(a.Files, f)
		}
	}
	a.Files = slices.DeleteFunc(a.Files, func(f txtar.File) bool { return len(f.Data) == 0 })
	books, err := markup.Books(txtar.Format(a))
	require.NoError(t, err)
	dir := t.TempDir()
	require.NoError(t, markup.WriteAll(dir, books, markup.Options{Plain: true}))
	r, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01", Compare: true})
	require.NoError(t, err)
	return r.Release(), r.Findings
}

// between compares two catalogues and writes what differs, a line each.
func between(t *testing.T, old, new string) []string {
	t.Helper()
	a, _ := release(t, old)
	b, _ := release(t, new)
	d, err := compare.Between(context.Background(), a, b, compare.Options{Today: "2027-03-01"})
	require.NoError(t, err)
	return lines(d)
}

func lines(d *compare.Diff) []string {
	var out []string
	for _, r := range d.Renames {
		out = append(out, strings.TrimSpace(fmt.Sprintf("%s %s", r.What, r.Trait))+fmt.Sprintf(": %s is %s", r.Old, r.New))
	}
	for _, s := range d.Splits {
		out = append(out, fmt.Sprintf("split %s by %s, dropped %v", s.Platform, s.Trait, s.Dropped))
	}
	for _, f := range d.Fleets {
		out = append(out, fmt.Sprintf("%s %s %v: %s", f.Kind, f.Platform, f.Whole, region(f.Region)))
	}
	for _, c := range d.Changes {
		line := fmt.Sprintf("%s %s %s: %s -> %s: %s", c.Kind, c.Platform, c.Position, answer(c.Old), answer(c.New), region(c.Region))
		if c.Accepted != nil {
			line += " accepted by " + c.Accepted.By
		}
		out = append(out, line)
	}
	for _, i := range d.Irregular {
		out = append(out, strings.TrimSpace("irregular "+i.Platform+" "+i.Position))
	}
	return out
}

func region(r *finding.Region) string {
	var where []string
	for _, b := range r.Where {
		where = append(where, b.String())
	}
	return fmt.Sprintf("%s, %s on the road, %s", r.Configurations, r.OnTheRoad.RatString(), strings.Join(where, " | "))
}

func answer(a compare.Answer) string {
	if !a.Exists {
		return "nowhere"
	}
	var out []string
	for _, alt := range a.Alternatives {
		var items []string
		for _, it := range alt {
			items = append(items, fmt.Sprint(it.Quantity, " ", it.Part.Number))
		}
		out = append(out, strings.Join(items, " + "))
	}
	text := strings.Join(out, " or ")
	switch {
	case a.With != nil:
		text = "with " + a.With.Name
	case text == "":
		text = a.Outcome.String()
	}
	if a.Unsound() && a.Outcome.String() == "fitted" {
		text += " (unsettled)"
	}
	for _, c := range a.Cells {
		text += " " + c.Pos.String()
	}
	return text
}

func TestNothingDiffers(t *testing.T) {
	assert.Empty(t, between(t, "", ""))
	assert.Empty(t, between(t, "", `
-- c.xlsx/Fitment --
The dampers

Suspension	Platform	Damper note	Damper
STEEL	h7	look twice	2 x  QX-2
air	H7		qx-1
-- c.xlsx/Vehicles --
Platform	Suspension	Years	On the road
H7	Air	2004-2006	5
H7	Air, Steel	2007+	5
H7	Steel	to 2006	5
`), "the same said otherwise; what is on the road is no difference")
}

// TestKinds goes through what may become of a position.
func TestKinds(t *testing.T) {
	fitment := func(rows string) string { return "-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\n" + rows }
	air := func(cell string) string { return fitment("H7\tAir\t" + cell + "\nH7\tSteel\tQX-2\n") }
	forbid := "-- c.xlsx/Compatibility --\nPart\tSuspension\tEffect\tReason\nQX-1\tAir\tforbid\tit rubs\n"
	for _, c := range []struct{ name, old, new, want string }{
		{"lost", air("QX-1"), air(""), "lost H7 Damper: 2 QX-1 C2 -> gap"},
		{"lost to none", air("QX-1"), air("none: no mounts"), "lost H7 Damper: 2 QX-1 C2 -> none C2"},
		{"lost to planned", air("QX-1"), air("planned"), "lost H7 Damper: 2 QX-1 C2 -> planned C2"},
		{"lost although unsettled", air("QX-1") + forbid, air("ask: which") + forbid, "lost H7 Damper: 2 QX-1 (unsettled) C2 -> ask C2"},
		{"gained", air(""), air("QX-1"), "gained H7 Damper: gap -> 2 QX-1 C2"},
		{"gained from none", air("none"), air("QX-1"), "gained H7 Damper: none C2 -> 2 QX-1 C2"},
		{"another part", air("QX-1"), air("QX-2"), "changed H7 Damper: 2 QX-1 C2 -> 2 QX-2 C2"},
		{"another quantity", air("QX-1"), air("3 x QX-1"), "changed H7 Damper: 2 QX-1 C2 -> 3 QX-1 C2"},
		{"another order", air("QX-1 or QX-2"), air("QX-2 or QX-1"), "changed H7 Damper: 2 QX-1 or 2 QX-2 C2 -> 2 QX-2 or 2 QX-1 C2"},
		{"another outcome", air("planned"), air("none"), "changed H7 Damper: planned C2 -> none C2"},
		{"a conflict", air("QX-1"), air("QX-1") + "H7\tAir\tQX-2\n", "conflict H7 Damper: 2 QX-1 C2 -> conflict C2 C4"},
		{"a conflict where nothing was", air(""), air("QX-1") + "H7\tAir\tQX-2\n", "conflict H7 Damper: gap -> conflict C2 C4"},
		{"settled", air("QX-1") + "H7\tAir\tQX-2\n", air("QX-1"), "settled H7 Damper: conflict C2 C4 -> 2 QX-1 C2"},
		{"not settled", air("QX-1") + "H7\tAir\tQX-2\n", air(""), "changed H7 Damper: conflict C2 C4 -> gap"},
		{"unsettled", air("QX-1"), air("QX-1") + forbid, "unsettled H7 Damper: 2 QX-1 C2 -> 2 QX-1 (unsettled) C2"},
		{"unsettled where nothing was", air(""), air("QX-1") + forbid, "unsettled H7 Damper: gap -> 2 QX-1 (unsettled) C2"},
		{"settled by a rule", air("QX-1") + forbid, air("QX-1"), "settled H7 Damper: 2 QX-1 (unsettled) C2 -> 2 QX-1 C2"},
		{"from a conflict to unsettled", air("QX-1") + "H7\tAir\tQX-2\n", air("QX-1") + forbid, "changed H7 Damper: conflict C2 C4 -> 2 QX-1 (unsettled) C2"},
	} {
		assert.Equal(t, []string{c.want + ": 6, 60 on the road, Suspension Air"}, between(t, c.old, c.new), c.name)
	}
}

func TestPositionsComeAndGo(t *testing.T) {
	two := `
-- c.xlsx/Positions --
Position	Quantity	Suspension
Damper	2
Bushing	4	Air
-- c.xlsx/Fitment --
Platform	Suspension	Damper	Bushing
H7	Air	QX-1	QX-2
H7	Steel	QX-2
`
	assert.Equal(t, []string{"gained H7 Bushing: nowhere -> 4 QX-2 D2: 6, 60 on the road, Suspension Air"}, between(t, "", two))
	assert.Equal(t, []string{"lost H7 Bushing: 4 QX-2 D2 -> nowhere: 6, 60 on the road, Suspension Air"}, between(t, two, ""))
	assert.Equal(t, []string{"changed H7 Damper: 2 QX-1 C2 -> 4 QX-1 C2: 6, 60 on the road, Suspension Air",
		"changed H7 Damper: 2 QX-2 C3 -> 4 QX-2 C3: 6, 60 on the road, Suspension Steel"},
		between(t, "", "-- c.xlsx/Positions --\nPosition\tQuantity\nDamper\t4\n"), "the position takes more")
}

// TestKitsHoldSomethingElse holds that what a kit holds is part of what is fitted.
func TestKitsHoldSomethingElse(t *testing.T) {
	kit := func(n int) string {
		return fmt.Sprintf("-- c.xlsx/Kits --\nKit\tPart\tQuantity\nK-1\tQX-1\t%d\n-- c.xlsx/Fitment --\nPlatform\tDamper\nH7\tK-1\n", n)
	}
	assert.Empty(t, between(t, kit(2), kit(2)))
	assert.Equal(t, []string{"changed H7 Damper: 1 K-1 B2 -> 1 K-1 B2: 12, 120 on the road, all"}, between(t, kit(2), kit(3)))
}

func TestVehiclesComeAndGo(t *testing.T) {
	more := "-- c.xlsx/Vehicles --\nPlatform\tYears\tSuspension\tOn the road\nH7\t\tAir, Steel\t120\nH7\t2004\tn/a\t7\n"
	assert.Equal(t, []string{"appeared H7 false: 1, 7 on the road, Suspension does not apply"}, between(t, "", more))
	assert.Equal(t, []string{"vanished H7 false: 1, 7 on the road, Suspension does not apply"}, between(t, more, ""))
	later := "-- c.xlsx/Platforms --\nPlatform\tYears\nH7\t2004-2010\n"
	assert.Equal(t, []string{"appeared H7 false: 2, 120/7 on the road, 2010"}, between(t, "", later))
	another := "-- c.xlsx/Platforms --\nPlatform\tYears\nH7\t2004-2009\nL4\t2001\n" +
		"-- c.xlsx/Vehicles --\nPlatform\tSuspension\tOn the road\nH7\tAir, Steel\t120\nL4\tAir\t9\n"
	assert.Equal(t, []string{"appeared L4 true: 1, 9 on the road, all"}, between(t, "", another))
	assert.Equal(t, []string{"vanished L4 true: 1, 9 on the road, all"}, between(t, another, ""))
}
