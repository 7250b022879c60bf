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

// world replaces sheets of the base: any part may stand in any row of it, and nothing but the
// comparison tells.
const world = `
-- c.xlsx/Platforms --
Platform	Years
H7	2004-2015
-- c.xlsx/Positions --
Position	Quantity	Coverage
Damper	2	wanted
Link	1	wanted
-- c.xlsx/Parts --
Part	Name
QX-A	Damper
QX-B	Damper, heavy
QX-C	Damper, long
QX-D	Damper, short
QX-E	Damper, soft
QX-F	Damper, hard
QX-G	Damper, old
`

// fitted gives the world with a row a year from 2004 on, each with a damper; `-` is a blank.
func fitted(dampers string) string {
	var b strings.Builder
	b.WriteString(world + "-- c.xlsx/Fitment --\nPlatform\tYears\tDamper\tNote\n")
	for i, d := range strings.Fields(dampers) {
		fmt.Fprintf(&b, "H7\t%d\t%s\tsheet %d\n", 2004+i, strings.Trim(d, "-"), i*i)
	}
	return b.String()
}

// replaced gives the world with some words of a release replaced.
func replaced(text string, words ...string) string {
	return strings.NewReplacer(words...).Replace(text)
}

// slips gives what a comparison tells of columns and cells, a line each: code, severity, cells, words.
func slips(t *testing.T, old, new string) []string {
	t.Helper()
	a, before := release(t, old)
	b, now := release(t, new)
	fs, err := compare.Since(context.Background(), a, b, before, now, compare.Options{Today: "2027-03-01"})
	require.NoError(t, err)
	var out []string
	for _, f := range fs {
		if (f.Code == "column-sorted" || f.Code == "cell-dragged") && !f.Known {
			var cells []string
			for _, c := range f.Cells {
				cells = append(cells, c.Pos.String())
			}
			out = append(out, fmt.Sprintf("%s %s %s: %s", f.Severity, f.Code, strings.Join(cells, " "), f.Message))
		}
	}
	return out
}

// TestAColumnSortedSince sorts a column of parts in many ways.
func TestAColumnSortedSince(t *testing.T) {
	old := fitted("QX-C QX-A - QX-B QX-E QX-B QX-D QX-F")
	const words = "Damper is in order now and was not in the earlier release: %d cells say what other rows said, and nothing else in their rows has changed"
	up, down := fitted("QX-A QX-B QX-B QX-C QX-D QX-E QX-F -"), fitted("QX-F QX-E QX-D QX-C QX-B QX-B QX-A -")
	all := "error column-sorted C2 C3 C4 C5 C6: " + fmt.Sprintf(words, 8)
	assert.Equal(t, []string{all}, slips(t, old, up))
	assert.Equal(t, []string{"error column-sorted C2 C3 C4 C5 C6: " + fmt.Sprintf(words, 7)}, slips(t, old, down))
	assert.Len(t, slips(t, up, down), 1, "it is turned round")
	few := slips(t, fitted("QX-B QX-A QX-C"), fitted("QX-A QX-B QX-C"))
	assert.Equal(t, []string{"warning column-sorted C2 C3: " + fmt.Sprintf(words, 2)}, few)
	assert.Equal(t, []string{"warning column-sorted C3 C4 C5 C6: Damper is in order in these rows now and was not in the earlier release: 4 cells say what other rows said, and nothing else in their rows has changed"},
		slips(t, fitted("QX-F QX-D QX-E QX-B QX-A QX-C"), fitted("QX-F QX-A QX-B QX-D QX-E QX-C")), "a part of the column")
}

// TestRowsBesideASort holds that rows which were added, taken out or moved as a whole in the
// same release hide no sort.
func TestRowsBesideASort(t *testing.T) {
	old := fitted("QX-C QX-A QX-B QX-B QX-E")
	sorted := fitted("QX-A QX-B QX-B QX-C QX-E")
	one := func(new string) {
		t.Helper()
		if got := slips(t, old, new); assert.Len(t, got, 1) {
			assert.Contains(t, got[0], "column-sorted")
		}
	}
	one(sorted + "H7\t2014\tQX-A\tadded\n")
	one(replaced(sorted, "Note\n", "Note\nH7\t2014\tQX-F\tadded above\n"))
	one(replaced(sorted, "H7\t2006\tQX-B\tsheet 4\n", ""))
	one(replaced(sorted, "Note\n", "Note\n\n\n"))
	one(replaced(sorted, "Damper\tNote", "Damper\tLink\tNote", "\tsheet", "\t\tsheet")) // a column more
	one(fitted("QX-A QX-B QX-C QX-D QX-E QX-F")[:len(fitted("QX-A"))-len("H7\t2004\tQX-A\tsheet 0\n")] +
		"H7\t2004\tQX-A\tsheet 0\nH7\t2013\tQX-A\tadded before it was sorted\nH7\t2005\tQX-B\tsheet 1\nH7\t2006\tQX-B\tsheet 4\nH7\t2007\tQX-C\tsheet 9\nH7\t2008\tQX-E\tsheet 16\n")
}

// TestAColumnThatWasLeftOut sorts all other columns by the notes.
func TestAColumnThatWasLeftOut(t *testing.T) {
	old := fitted("QX-C QX-A QX-E QX-B")
	new := replaced(old, "2004\tQX-C\tsheet 0", "2007\tQX-C\tsheet 9", "2007\tQX-B\tsheet 9", "2006\tQX-B\tsheet 4",
		"2006\tQX-E\tsheet 4", "2004\tQX-E\tsheet 0")
	assert.Equal(t, []string{"warning column-sorted C2 C4 C5: Damper has stayed as it was while the rows beside it were put in another order: 3 cells say what other rows said, and nothing else in their rows has changed"},
		slips(t, old, new))
}

// TestCellsDraggedSince fills a column from one cell downwards or upwards.
func TestCellsDraggedSince(t *testing.T) {
	old := fitted("QX-A QX-C QX-B QX-D QX-B QX-C QX-D")
	assert.Equal(t, []string{`warning cell-dragged C3 C4: in 2 cells Damper says "QX-A" now, as the cell above them does, where the earlier release had "QX-C" and "QX-B", and nothing else in their rows has changed`},
		slips(t, old, fitted("QX-A QX-A QX-A QX-D QX-B QX-C QX-D")))
	assert.Equal(t, []string{`warning cell-dragged C3 C4: in 2 cells Damper says "QX-D" now, as the cell below them does, where the earlier release had "QX-C" and "QX-B", and nothing else in their rows has changed`},
		slips(t, old, fitted("QX-A QX-D QX-D QX-D QX-B QX-C QX-D")))
	assert.Equal(t, []string{`warning cell-dragged C4 C5 C6: in 3 cells Damper says "QX-C" now, as the cell above them does, where the earlier release had "QX-B" and blanks, and nothing else in their rows has changed`},
		slips(t, fitted("QX-A QX-C QX-B - - QX-B"), fitted("QX-A QX-C QX-C QX-C QX-C QX-B")))
	assert.Len(t, slips(t, old, fitted("QX-A QX-C QX-C QX-C QX-B QX-A QX-A")), 1, "not over what went on its own")
	numbers := func(text string) string {
		return replaced(text, "QX-A", "QX-1", "QX-B", "QX-2", "QX-C", "QX-3", "QX-D", "QX-4", "2005", "2012")
	}
	assert.Equal(t, []string{`warning cell-dragged C3 C4: in 2 cells Damper climbs by one from "QX-1" to "QX-3" now, where the earlier release had "QX-3" and "QX-2", and nothing else in their rows has changed`},
		slips(t, numbers(old), numbers(fitted("QX-A QX-B QX-C QX-D QX-B QX-C QX-D"))))
}

// TestEditsAreNoSlips holds that what people change on purpose is not told.
func TestEditsAreNoSlips(t *testing.T) {
	old := fitted("QX-A QX-C QX-B QX-D QX-B QX-C - -")
	superseded := []string{"Part\tName\n", "Part\tStatus\tReplaced by\tName\n", "QX-B\t", "QX-B\tsuperseded\tQX-A\t", "QX-C\t", "QX-C\tsuperseded\tQX-A\t",
		"QX-A\tDamper\n", "QX-A\t\t\tDamper\n", "QX-D\tDamper, short", "QX-D\t\t\tDamper, short", "QX-E\tDamper, soft", "QX-E\t\t\tDamper, soft",
		"QX-F\tDamper, hard", "QX-F\t\t\tDamper, hard", "QX-G\tDamper, old", "QX-G\t\t\tDamper, old"}
	parts, rows, _ := strings.Cut(fitted("QX-A QX-A QX-A QX-D QX-A QX-A - -"), "-- c.xlsx/Fitment --")
	for name, new := range map[string]string{
		"nothing":                          old,
		"a cell":                           fitted("QX-A QX-E QX-B QX-D QX-B QX-C - -"),
		"a cell like the one above":        fitted("QX-A QX-A QX-B QX-D QX-B QX-C - -"),
		"some cells":                       fitted("QX-A QX-E QX-F QX-D QX-G QX-C - -"),
		"blanks that are filled":           fitted("QX-A QX-C QX-B QX-D QX-B QX-C QX-C QX-C"),
		"a cell and a blank":               fitted("QX-A QX-C QX-B QX-D QX-B QX-B QX-B -"),
		"a part in place of another":       fitted("QX-A QX-C QX-E QX-D QX-E QX-C - -"),
		"two parts, everywhere":            replaced(old, "QX-B", "QX-A", "QX-C", "QX-A"),
		"two parts that are superseded":    replaced(parts, superseded...) + "-- c.xlsx/Fitment --" + rows,
		"other texts in all of the column": fitted("QX-E QX-F QX-F QX-F QX-G QX-G QX-G QX-G"),
		"a row less":                       replaced(old, "H7\t2005\tQX-C\tsheet 1\n", ""),
		"a row more":                       replaced(old, "Note\n", "Note\nH7\t2015\tQX-A\tmore\n"),
		"a row that moved":                 replaced(old, "H7\t2005\tQX-C\tsheet 1\n", "", "Damper\tNote\n", "Damper\tNote\nH7\t2005\tQX-C\tsheet 1\n"),
		"two parts that change places":     fitted("QX-A QX-C QX-D QX-B QX-B QX-C - -"),
		"rows below of another kind":       old + "-- c.xlsx/References --\nNumber\tPart\tKind\nR-1\tQX-A\tours\n",
	} {
		assert.Empty(t, slips(t, old, new), name)
	}
	whole := "-- c.xlsx/Fitment --\nPlatform\tYears\tDamper\tNote\n"
	in, out := "", ""
	for i, d := range []string{"QX-A", "QX-B", "QX-C", "QX-D"} {
		out += fmt.Sprintf("H7\t%d\t%s\tsheet %d\n", 2010-i, d, i)
		in = fmt.Sprintf("H7\t%d\t%s\tsheet %d\n", 2010-i, d, i) + in
	}
	assert.Empty(t, slips(t, world+whole+in, world+whole+out), "all columns were sorted together")
	assert.Empty(t, slips(t, fitted("QX-A QX-B QX-B QX-C QX-E"), fitted("QX-C QX-A QX-B QX-B QX-E")), "a column that was sorted is put right")
	assert.Empty(t, slips(t, fitted("QX-A QX-A QX-A QX-D"), fitted("QX-A QX-C QX-B QX-D")), "cells that were dragged are put right")
}

// TestASlipIsToldOnce holds that what an earlier release has is not new, and that a row of
// Accepted quiets it.
func TestASlipIsToldOnce(t *testing.T) {
	right, sorted := fitted("QX-C QX-A QX-B QX-B QX-E"), fitted("QX-A QX-B QX-B QX-C QX-E")
	assert.Len(t, slips(t, right, sorted), 1)
	assert.Empty(t, slips(t, sorted, sorted))
	accepted := sorted + "-- c.xlsx/Accepted --\nFinding\tReason\tBy\ncolumn-sorted\tas the shop lists them\tN. N.\n"
	a, before := release(t, right)
	b, now := release(t, accepted)
	for _, f := range now {
		assert.NotEqual(t, "accepted-unused", string(f.Code), "only a comparison tells it")
	}
	fs, err := compare.Since(context.Background(), a, b, before, now, compare.Options{Today: "2027-03-01"})
	require.NoError(t, err)
	for _, f := range fs {
		assert.True(t, f.Code != "column-sorted" || f.Accepted != nil)
	}
	d, err := compare.Between(context.Background(), a, b, compare.Options{Today: "2027-03-01"})
	require.NoError(t, err)
	assert.NotEmpty(t, d.Changes, "diff tells what it did to vehicles")
}

// TestASortedNumberIsNotDragged holds that numbers which climb because they were sorted are
// not told a second time.
func TestASortedNumberIsNotDragged(t *testing.T) {
	numbers := func(text string) string {
		return replaced(text, "QX-A", "QX-1", "QX-B", "QX-2", "QX-C", "QX-3", "QX-D", "QX-4")
	}
	got := slips(t, numbers(fitted("QX-D QX-B QX-A QX-C")), numbers(fitted("QX-A QX-B QX-C QX-D")))
	if assert.Len(t, got, 1) {
		assert.Contains(t, got[0], "column-sorted")
	}
}
