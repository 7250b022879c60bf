package view_test

import (
	"bytes"
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/ask/pick"
	"ferrule/compiler/release"
	"ferrule/compiler/release/compare"
	"ferrule/out/data"
	"ferrule/out/report"
	"ferrule/out/view"
)

// read gives what people read of a page, blanks between all that stands apart.
func read(t *testing.T, name string, page any) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, view.Print(&b, view.Templates, name, page))
	text := html.UnescapeString(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(b.String(), " "))
	return strings.Join(strings.Fields(text), " ")
}

// label is what begins a line of a text that a page tells in another way.
var label = regexp.MustCompile(`^(or|\+|holds|where|note|notice|caution|warning|danger|care|error|question|to tell|example|vehicles|old|new|row|not|decides|overruled) +`)

// holds wants every line of a text on a page, but for those that the page says in words of its own.
func holds(t *testing.T, page, text string, but *regexp.Regexp) (lines int) {
	t.Helper()
	for line := range strings.Lines(text) {
		line = strings.Join(strings.Fields(line), " ")
		if but.MatchString(line) {
			continue
		}
		for label.MatchString(line) {
			line = label.ReplaceAllString(line, "")
		}
		if line == "" || but.MatchString(line) {
			continue
		}
		lines++
		assert.True(t, strings.Contains(page, line), "the page lacks: %s", line)
	}
	return lines
}

// A page of a vehicle says what the commands pick and why print, line for line.
func TestVehicleSaysWhatCommandsSay(t *testing.T) {
	own := regexp.MustCompile(`^(as at |look at this before |not told, and|to order|nothing$|no such vehicle:|no row of Vehicles|the nearest|\+\d+ more|.*: \d+ ways?, by |not settled|the vehicle has no|comes with|too irregular|no fitment cell|no cell of this)`)
	for _, name := range []string{"demo", "faulty"} {
		res, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{"../../testdata/" + name}}, compiler.Options{Today: "2026-06-01"})
		require.NoError(t, err)
		lookup := pick.NewLookup(res.Catalogue)
		lines, unsettled := 0, 0
		for _, p := range res.Catalogue.Platforms {
			for _, year := range []string{"", "1990", "2006", "2014"} {
				query, err := lookup.Query(p.Name, year, nil)
				if err != nil {
					continue // a year that the platform does not have
				}
				list, err := lookup.List(t.Context(), query)
				require.NoError(t, err)
				page := read(t, "vehicle-answer", view.VehicleOf(list))
				var text strings.Builder
				require.NoError(t, report.Pick(&text, list, report.Options{Width: 1 << 20}))
				lines += holds(t, page, text.String(), own)
				assert.Equal(t, strings.Count(text.String(), "not settled: no part may be named"), strings.Count(page, "not settled: no part may be named"))
				unsettled += strings.Count(page, "not settled")

				why, err := lookup.Why(t.Context(), query, pick.Focus{})
				require.NoError(t, err)
				page = ""
				for _, w := range view.WhyOf(why) {
					page += " " + w.Position + " " + read(t, "why-answer", w)
				}
				text.Reset()
				require.NoError(t, report.Why(&text, why, report.Options{Width: 1 << 20}))
				_, reasons, _ := strings.Cut(text.String(), "\n\n")
				lines += holds(t, page, reasons, own)
			}
		}
		assert.Greater(t, lines, 100, name)
		if name == "faulty" {
			assert.Positive(t, unsettled)
		}
	}
}

// A page of changes says what the command diff prints, in the order of weight, and all that is counted.
func TestChangesSayWhatTheCommandSays(t *testing.T) {
	of := func(dir string) *release.Release {
		r, err := release.Open(t.Context(), dir, compiler.Options{Today: "2026-06-01", Brief: true})
		require.NoError(t, err)
		return r
	}
	old, now := of("../../testdata/demo"), of("../../testdata/faulty")
	diff, err := compare.Between(t.Context(), &old.Release, &now.Release, compare.Options{Today: "2026-06-01"})
	require.NoError(t, err)
	require.NotEmpty(t, diff.Fleets)
	compared := &data.Compared{Old: old.State, New: now.State, Diff: diff}
	changes := view.ChangesOf(compared)
	write, err := report.NewDiff("text", report.Options{Width: 1 << 20})
	require.NoError(t, err)
	var text strings.Builder
	require.NoError(t, write(&text, compared))
	assert.Positive(t, holds(t, read(t, "changes-answer", changes), text.String(), regexp.MustCompile(`^(\+\d+ more|(told apart|renamed|not compared): |platform )`)))
	for _, k := range changes.Kinds {
		assert.Equal(t, k.Entries, len(k.List)+k.Left, k.Kind)
	}
	same, err := compare.Between(t.Context(), &old.Release, &old.Release, compare.Options{Today: "2026-06-01"})
	require.NoError(t, err)
	assert.Contains(t, read(t, "changes-answer", view.ChangesOf(&data.Compared{Old: old.State, New: old.State, Diff: same})), "no difference")
}
