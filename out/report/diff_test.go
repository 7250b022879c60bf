package report

import (
	"bytes"
	"fmt"
	"math/big"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/release"
	"ferrule/compiler/release/compare"
	"ferrule/out/data"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// lost is a change as a diff tells it.
func lost(platform string) compare.Change {
	part := &model.Part{Number: "HD-20"}
	return compare.Change{Kind: compare.Lost, Platform: platform, Position: "Front damper",
		Old:    compare.Answer{Exists: true, Outcome: model.Fitted, Settled: true, Alternatives: []model.Alternative{{{Part: part, Quantity: 2}}}},
		New:    compare.Answer{Exists: true, Outcome: model.Gap},
		Region: vehicles()}
}

func vehicles() *finding.Region {
	return &finding.Region{Exact: true, Configurations: big.NewInt(3), OnTheRoad: big.NewRat(7, 2),
		Where: []model.Box{{Years: []model.Span{{From: 2004, To: 2006}}}}, Example: &model.Example{Year: 2004}}
}

func compared(d *compare.Diff) *data.Compared {
	return &data.Compared{Old: release.State{Source: "main:cat", Kind: "revision", Label: "1"}, New: release.State{Source: "cat", Kind: "workbooks"}, Diff: d}
}

func renderDiff(t *testing.T, format string, d *compare.Diff) string {
	t.Helper()
	write, err := NewDiff(format, Options{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, write(&b, compared(d)))
	return b.String()
}

// everything is a diff with a difference of every sort.
func everything() *compare.Diff {
	kit := &model.Part{Number: "K-1"}
	kit.Contents = []model.Component{{Part: &model.Part{Number: "HD-20"}, Quantity: 2}, {Part: kit, Quantity: 1}}
	fit := compare.Answer{Exists: true, Outcome: model.Fitted, Settled: true, Alternatives: []model.Alternative{{{Part: kit, Quantity: 1}}}}
	with := compare.Answer{Exists: true, Outcome: model.Fitted, With: &model.Position{Name: "Rear damper"}}
	accepted := lost("L4")
	accepted.Accepted = &finding.Accepted{Reason: "rare", By: "N. N.", Until: "2027-06-30", Cell: at("A2")}
	d := &compare.Diff{
		Renames: []compare.Rename{{What: compare.Value, Trait: "Suspension", Old: "Air", New: "Air beam", Why: "the same vehicles have it"}},
		Splits:  []compare.Split{{Platform: "H7", Trait: "Lift axle"}, {Platform: "H7", Trait: "Tag axle", Dropped: true}},
		Fleets: []compare.Fleet{{Kind: compare.Appeared, Platform: "H9", Whole: true, Region: vehicles()},
			{Kind: compare.Appeared, Platform: "H7", Region: vehicles()}, {Kind: compare.Vanished, Platform: "H7", Region: vehicles()},
			{Kind: compare.Vanished, Platform: "H8", Whole: true, Region: vehicles()}},
		Changes:   []compare.Change{lost("H7"), accepted},
		Irregular: []compare.Irregular{{Platform: "H7"}, {Platform: "H7", Position: "Roll bar"}},
	}
	d.Losses = []compare.Loss{
		{Sheet: "Compatibility", Was: "forbid HD-20", Now: "caution HD-20", Part: "HD-20", Old: []cell.Place{at("A2")}, New: []cell.Place{at("A3")},
			Where: []compare.Bare{{Platform: "H7", Region: vehicles()}, {Platform: "H8"}}},
		{Sheet: "Limits", Was: "all rows of Limits (2)", Rows: []string{"one", "two"}, Old: []cell.Place{at("A2"), at("A4")},
			Accepted: &finding.Accepted{Reason: "rare", By: "N. N.", Until: "2027-06-30", Cell: at("A2")}}}
	for k := compare.Gained; k < compare.Lost; k++ {
		if k == compare.Unprotected {
			continue
		}
		d.Changes = append(d.Changes, compare.Change{Kind: k, Platform: "H7", Position: "Roll bar", Old: with, New: fit, Region: vehicles()})
	}
	for o := range model.Outcomes {
		d.Changes = append(d.Changes, compare.Change{Kind: compare.Changed, Platform: "H7", Position: o.String(),
			Old: compare.Answer{Exists: o != model.Gap, Outcome: o}, New: compare.Answer{Exists: true, Outcome: o}, Region: vehicles()})
	}
	return d
}

func TestDiffJSONMeetsItsSchema(t *testing.T) {
	for _, d := range []*compare.Diff{{}, everything()} {
		assert.NoError(t, schema.ValidatePublished("diff.schema.json", []byte(renderDiff(t, "json", d))))
	}
}

func TestDiffText(t *testing.T) {
	text := renderDiff(t, "text", everything())
	for _, want := range []string{
		"old main:cat (release 1): 0 workbooks",
		"value of Suspension Air is called Air beam now: the same vehicles have it",
		"vehicles of H7 are told apart by Lift axle, about which nothing was said",
		"vehicles of H7 are not told apart by Tag axle any more",
		"H9 is a new platform", "H8 is no platform any more",
		"vehicles of H7 that were not there\n", "vehicles of H7 that are not there any more",
		"Front damper on H7: 2 x HD-20 was fitted; now no cell says anything",
		"Roll bar on H7: the item at Rear damper was fitted, which a check found wrong;\n  now K-1 is fitted",
		"lost: 2 (1 of them accepted)", "by N. N. until 2027-06-30: rare",
		"the vehicles of H7 are too irregular to be compared", "Roll bar on H7 is too irregular to be compared",
		"something was planned; now something is planned", "the reader had to ask; now the reader has to ask",
		"nothing belonged there; now nothing belongs there", "cells disagreed; now cells disagree",
		"the position was not there; now no cell says anything",
		"said forbid HD-20, and this one has only caution HD-20", "all rows of Limits (2) went since the earlier release: one; two",
	} {
		assert.Contains(t, text, want)
	}
	assert.True(t, strings.HasSuffix(text, "\n2 lost (1 of them accepted), 1 conflict, 2 unprotected (1 of them accepted), 1 unsettled, 7 changed, 1 settled, 1 gained,"+
		" 2 vanished, 2 appeared, 2 not compared, 1 renamed, 2 told apart otherwise\n"), text)
	assert.True(t, strings.HasSuffix(renderDiff(t, "text", &compare.Diff{}), "\n\nno difference\n"))
	assert.NotContains(t, renderDiff(t, "markdown", &compare.Diff{}), "| --- |")
}

// TestKitsAreOpened holds that where only what a kit holds has changed, it is told.
func TestKitsAreOpened(t *testing.T) {
	kit := func(n int) compare.Answer {
		p := &model.Part{Number: "K-1", Contents: []model.Component{{Part: &model.Part{Number: "HD-20"}, Quantity: n}}}
		return compare.Answer{Exists: true, Outcome: model.Fitted, Settled: true, Alternatives: []model.Alternative{{{Part: p, Quantity: 1}}}}
	}
	c := compare.Change{Kind: compare.Changed, Platform: "H7", Position: "Roll bar", Old: kit(2), New: kit(3)}
	assert.Equal(t, "Roll bar on H7: K-1 (2 x HD-20) was fitted; now K-1 (3 x HD-20) is fitted", quote(plain).changed(&c))
}

func TestPeopleAreShownSome(t *testing.T) {
	d := &compare.Diff{}
	for i := range 3000 {
		d.Changes = append(d.Changes, lost(fmt.Sprint("H", i)))
	}
	text := renderDiff(t, "text", d)
	assert.Equal(t, shownChanges, strings.Count(text, "was fitted"))
	assert.Contains(t, text, "\n  +2980 more, which --format json tells\n")
	marked := renderDiff(t, "markdown", d)
	assert.Equal(t, mostInDetail, strings.Count(marked, "was fitted"))
	assert.Contains(t, marked, "\n+2960 more, which `ferrule diff --format json` tells\n")
	assert.Equal(t, 3000, strings.Count(renderDiff(t, "json", d), `"kind": "lost"`))
}

// TestMarkdownIsBounded holds that no text of a workbook makes a comment too long.
func TestMarkdownIsBounded(t *testing.T) {
	d := &compare.Diff{}
	long := strings.Repeat("`ß|", 30_000)
	for range 100 {
		c := lost(long)
		c.Position = long
		c.Region.Where = []model.Box{{Traits: []model.TraitSet{{Trait: &model.Trait{Name: long}}}}}
		d.Changes = append(d.Changes, c)
	}
	text := renderDiff(t, "markdown", d)
	assert.LessOrEqual(t, utf8.RuneCountInString(text), 65_536)
	assert.Contains(t, text, " more, which `ferrule diff")
}

// TestCodeSpans holds that a text in a code span is that text, and ends where it ends:
// by the rule of CommonMark 0.31, 6.1, a span ends at the first run of as many backticks
// as began it, and one blank at each end is taken away if both are there.
func TestCodeSpans(t *testing.T) {
	for text, want := range map[string]string{
		"HD-20":                         "`HD-20`",
		"a|b <b>&amp; @all #12 [x](y)":  "`a|b <b>&amp; @all #12 [x](y)`",
		"a`b":                           "``a`b``",
		"`":                             "`` ` ``",
		"a\nb\t c":                      "`a b c`",
		"www.example.test/_x_ **bold**": "`www.example.test/_x_ **bold**`",
		"\x1b[2J":                       "`<U+001B>[2J`",
	} {
		assert.Equal(t, want, code(text), text)
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching("[a` |\n<]{1,12}").Draw(t, "text")
		if strings.TrimSpace(text) == "" {
			return
		}
		span := code(text)
		fence := len(span) - len(strings.TrimLeft(span, "`"))
		inner := span[fence:]
		end := closing(inner, fence)
		require.Equal(t, len(inner)-fence, end, "%q ends early", span)
		inner = inner[:end]
		if len(inner) > 1 && inner[0] == ' ' && inner[len(inner)-1] == ' ' {
			inner = inner[1 : len(inner)-1]
		}
		require.Equal(t, strings.Join(strings.Fields(text), " "), inner)
	})
}

// closing gives where the first run of exactly n backticks begins.
func closing(s string, n int) int {
	for i := 0; i < len(s); {
		run := len(s[i:]) - len(strings.TrimLeft(s[i:], "`"))
		if run == n {
			return i
		}
		i += max(run, 1)
	}
	return -1
}

func TestUnknownDiffFormats(t *testing.T) {
	_, err := NewDiff("markdwon", Options{})
	assert.EqualError(t, err, `there is no format "markdwon" (did you mean markdown?), write text, json or markdown`)
	for _, name := range DiffFormats() {
		write, err := NewDiff(name, Options{})
		require.NoError(t, err)
		assert.ErrorContains(t, write(full{}, compared(everything())), "disk full", name)
	}
}
