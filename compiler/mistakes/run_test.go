package mistakes

import (
	"bytes"
	"cmp"
	"context"
	"flag"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/release/compare"
	"ferrule/compiler/tidy/share"
	"ferrule/out/data"
	"ferrule/out/report"
)

// today is a day on which no acceptance of the demo or the starter has ended.
const today = "2027-03-01"

// mistake is one thing that people get wrong.
type mistake struct {
	name string
	from origin
	do   func(*books)
	// wants must come of it; they may be told in any order, and others beside them within
	// the bounds.
	wants []want
	// harmless: nothing but notes comes of it, and what is published is the same.
	harmless bool
	// since holds the spoilt catalogue against the unspoilt one, as an earlier release.
	since bool
	// most and lines bound what comes of it: findings, and lines of the report for people.
	// 0 is the usual bound. why says what needs more.
	most, lines int
	why         string
}

// want is a finding: its code, the place of one of its cells as `Sheet!C7` (`Sheet` alone:
// anywhere on it; "" where it has none), and a regular expression that message, fix and
// notes must meet together.
type want struct {
	code, at, says string
}

const (
	usualMost  = 2
	usualLines = 12
)

// corpus lists all mistakes.
func corpus() []mistake {
	return slices.Concat(
		samples(),
		inSheets(),
		inCells(),
		inCatalogues(),
		inProtection(),
		inRules(),
		inAdvice(),
		inMatters(),
		inAdviceRows(),
		inWords(),
		inCalled(),
		inValues(),
		inSides(),
		inHeadsOfPositions(),
		inSuccessions(),
		inWholeColumns(),
	)
}

func TestMistakes(t *testing.T) {
	clean := [...]*original{demo: newOriginal(t, demo), starter: newOriginal(t, starter), spoken: newOriginal(t, spoken)}
	seen := map[string]bool{}
	var mu sync.Mutex
	var found []int
	t.Run("each", func(t *testing.T) {
		step := share.Step(t)
		for i, m := range corpus() {
			assert.False(t, seen[m.name], "two mistakes are called %q", m.name)
			seen[m.name] = true
			if i%step > 0 && !named() {
				continue
			}
			t.Run(m.name, func(t *testing.T) {
				t.Parallel()
				n := (&trial{t, &m, clean[m.from]}).run()
				mu.Lock()
				defer mu.Unlock()
				found = append(found, n)
			})
		}
	})
	if len(found) == 0 {
		return // -run named none of them
	}
	slices.Sort(found)
	median := found[len(found)/2]
	t.Logf("%d mistakes; findings that come of one: median %d, at most %d", len(found), median, found[len(found)-1])
	assert.LessOrEqual(t, median, usualMost, "findings that come of a mistake, median")
}

// named tells whether -run asks for mistakes by their names: then none is passed over.
func named() bool {
	f := flag.Lookup("test.run")
	return f != nil && strings.Contains(f.Value.String(), "/")
}

// original is a catalogue without the mistake.
type original struct {
	res    *compiler.Result
	guides string
}

func newOriginal(t *testing.T, o origin) *original {
	res := compiled(t, open(t, o).write(o))
	return &original{res, guides(t, res)}
}

// trial is a mistake that is made.
type trial struct {
	*testing.T
	*mistake
	clean *original
}

// run makes the mistake and gives how many findings came of it.
func (r *trial) run() int {
	b := open(r.T, r.from)
	r.do(b)
	res := compiled(r.T, b.write(r.from))
	if r.since {
		hold(r.T, r.clean.res, res)
	}
	came := fresh(r.clean.res.Findings, res.Findings)
	report := words(r.T, res, came)
	r.Logf("%d findings:\n%s", len(came), report) // -v prints what people read
	if r.harmless {
		r.changesNothing(res, came, report)
	} else {
		r.told(came, report)
	}
	return len(came)
}

// told holds that what is wanted came, and little beside it.
func (r *trial) told(came []*finding.Finding, report string) {
	require.NotEmpty(r, r.wants, "a mistake wants a finding, or is harmless")
	for _, w := range r.wants {
		assert.True(r, slices.ContainsFunc(came, w.meets), "no finding %s at %s that says %q came, but\n%s", w.code, w.at, w.says, report)
	}
	most, lines := cmp.Or(r.most, usualMost), cmp.Or(r.lines, usualLines)
	assert.True(r, most <= usualMost && lines <= usualLines || r.why != "", "what needs more findings or lines than usual says why")
	assert.LessOrEqual(r, len(came), most, "too many findings:\n%s", report)
	assert.LessOrEqual(r, strings.Count(report, "\n"), lines, "too many lines:\n%s", report)
}

// changesNothing holds that nothing but notes came and the guides are the same.
func (r *trial) changesNothing(res *compiler.Result, came []*finding.Finding, report string) {
	assert.Empty(r, r.wants, "what is harmless wants nothing")
	for _, f := range came {
		assert.Equal(r, finding.Note, f.Severity, "%s", report)
	}
	assert.Equal(r, r.clean.guides, guides(r.T, res))
}

// hold marks what the catalogue without the mistake has as well, as an earlier release, and adds
// what only the comparison tells.
func hold(t *testing.T, clean, res *compiler.Result) {
	var err error
	res.Findings, err = compare.Since(context.Background(), clean.Release(), res.Release(), clean.Findings, res.Findings, compare.Options{Today: today})
	require.NoError(t, err)
}

func options() compiler.Options {
	return compiler.Options{Today: today, Guides: true, Compare: true, Workers: 1}
}

func compiled(t *testing.T, dir string) *compiler.Result {
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, options())
	require.NoError(t, err)
	return res
}

// guides gives all that the world is told of the platforms.
func guides(t *testing.T, res *compiler.Result) string {
	var out bytes.Buffer
	for _, p := range res.Guides {
		g := p.Open()
		require.NoError(t, data.PublicGuide(&out, res.Catalogue, g))
	}
	return out.String()
}

// words gives the report of some findings, as people read it, counts included.
func words(t *testing.T, res *compiler.Result, fs []*finding.Finding) string {
	only := *res
	only.Findings, only.Read, only.Since = fs, intake.Read{}, ""
	text, err := report.New("text", report.Options{})
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, text.Format(&out, &only))
	_, report, _ := strings.Cut(out.String(), "\n\n") // without the line that says what was read
	return report
}

// fresh gives the findings that the catalogue without the mistake has not.
func fresh(before, after []*finding.Finding) []*finding.Finding {
	left := map[string]int{}
	for _, f := range before {
		left[key(f)]++
	}
	var out []*finding.Finding
	for _, f := range after {
		if f.Known {
			continue
		}
		if k := key(f); left[k] > 0 {
			left[k]--
			continue
		}
		out = append(out, f)
	}
	return out
}

func key(f *finding.Finding) string {
	vehicles := ""
	if f.Region != nil && f.Region.Open().Configurations != nil {
		vehicles = f.Region.Open().Configurations.String()
	}
	return fmt.Sprintf("%s|%s|%s|%s|%s|%s|%s|%v", f.Code, f.Severity, f.Platform, f.Position, f.Part, cmp.Or(f.Constant, f.Message), vehicles, f.Accepted != nil)
}

func (w want) meets(f *finding.Finding) bool {
	text := f.Message + "\n" + f.Fix
	at := w.at == "" && len(f.Cells) == 0
	for _, c := range f.Cells {
		text += "\n" + c.Note
		sheet, place := "", ""
		if c.Sheet != nil {
			sheet = c.Sheet.Name
			place = sheet + "!" + c.Pos.String()
		}
		at = at || w.at != "" && (place == w.at || sheet == w.at)
	}
	return string(f.Code) == w.code && at && regexp.MustCompile(w.says).MatchString(text)
}
