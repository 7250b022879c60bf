package guide_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/judge/decide"
	"ferrule/out/data"
	"ferrule/out/guide"
)

// driven is what testdata/browser/finder.mjs prints.
type driven struct {
	Keyboard []struct {
		Page   string
		Tabs   int // from the top of the page to the finder
		Tree   *asked
		Errors []string
	}
	Plain []struct {
		Page   string
		Places map[string]*asked
		Keys   bool // the keyboard opens answers and follows a link to its line
	}
	Told []struct {
		Page   string
		Seen   []told
		Errors []string
	}
}

// told is what is shown for what an address tells of a vehicle.
type told struct {
	Ask       string
	End       map[string]found
	So, Lost  string
	Rules     [][2]string // in the list of parts: the reason, and on which vehicles
	Head, Why string      // of a vehicle that does not exist
	Near      []string
	Named     int   // what speaks of parts or lines all the same
	Then      *told // with the first of the nearest
}

// asked is a question with what follows from each answer, or an end.
type asked struct {
	Ask  string
	Ways map[string]*asked
	Home bool // the focus is on the heading
	End  json.RawMessage
}

// found is what an end says of one place.
type found struct {
	Brief   string
	Lines   int // of the table that are marked
	Choices [][]offer
}

// offer is a quantity and a part number.
type offer [2]any

// published is a guide as the world reads it.
type published struct {
	Platform  string
	Positions []struct {
		Position string
		Cases    []struct {
			Where struct {
				Years  [][2]int
				Traits map[string][]any
			}
			Outcome, With string
			Settled       *bool
			Alternatives  [][]struct {
				Part     string
				Quantity int
			}
		}
	}
}

// vehicle is one configuration in words: the year under "Model year", and traits that
// apply.
type vehicle map[string]string

// The finder, by the keyboard and with scripts off, leads every configuration of the demo
// to the parts that guides/*.json state for it.
func TestFinderInBrowser(t *testing.T) {
	demo := demoSample(t)
	guides := demo.Guides
	if os.Getenv("CI") == "" {
		guides = guides[len(guides)-1:] // all of them take minutes
		t.Logf("only %s, since CI is not set", guides[0].Platform.Name)
	}
	checkFinders(t, demo, guides)
}

// checkFinders leads every configuration of some platforms through their finders.
func checkFinders(t *testing.T, s *sample, guides []*decide.Guide) {
	got := drive(t, s, guides, nil)
	require.Len(t, got.Keyboard, len(guides))
	require.Len(t, got.Plain, len(guides))
	for i, g := range guides {
		t.Run(g.Platform.Name, func(t *testing.T) {
			require.Empty(t, got.Keyboard[i].Errors)
			assert.Less(t, got.Keyboard[i].Tabs, 15, "tabs to the finder")
			assert.True(t, got.Plain[i].Keys, "with scripts off, by the keyboard")
			want := publish(t, s, g)
			all := vehicles(s.Cat, g)
			require.Equal(t, g.Configurations.String(), strconv.Itoa(len(all)))
			reached := map[*asked]bool{}
			for _, v := range all {
				checkKeyboard(t, &want, v, got.Keyboard[i].Tree, reached)
				checkPlain(t, &want, v, got.Plain[i].Places)
			}
			assert.Equal(t, ends(got.Keyboard[i].Tree), len(reached), "ends that no vehicle leads to")
			t.Logf("%d configurations, %d ends", len(all), len(reached))
		})
	}
}

// drive has the finders of some guides of a sample driven in a browser.
func drive(t *testing.T, s *sample, guides []*decide.Guide, told any) *driven {
	got := new(driven)
	driveInto(t, s, guides, told, got)
	return got
}

// driveInto is drive with what the browser sees read into what the caller knows.
func driveInto(t *testing.T, s *sample, guides []*decide.Guide, told, got any) {
	browser(t)
	dir := t.TempDir()
	write(t, dir, s.pages(t, guide.Options{}))
	args := []string{dir}
	for _, g := range guides {
		args = append(args, pageOf(g))
	}
	if told == nil {
		told = struct{}{}
	}
	play(t, "finder.mjs", told, got, args...)
}

func pageOf(g *decide.Guide) string {
	return "platforms/" + strings.ReplaceAll(strings.ToLower(g.Platform.Name), " ", "-") + ".html"
}

func publish(t *testing.T, s *sample, g *decide.Guide) published {
	var b bytes.Buffer
	require.NoError(t, data.PublicGuide(&b, s.Cat, g))
	var out published
	require.NoError(t, json.Unmarshal(b.Bytes(), &out))
	return out
}

// says gives what a position's cases state of a vehicle: in short, and the parts.
func (p *published) says(t *testing.T, position int, v vehicle) (brief string, choices [][]offer) {
	for _, c := range p.Positions[position].Cases {
		year, err := strconv.Atoi(v["Model year"])
		require.NoError(t, err)
		in := len(c.Where.Years) == 0 || slices.ContainsFunc(c.Where.Years, func(s [2]int) bool { return s[0] <= year && year <= s[1] })
		for trait, values := range c.Where.Traits {
			has, applies := v[trait]
			in = in && slices.ContainsFunc(values, func(x any) bool { return x == nil && !applies || x != nil && applies && allowed(x, has) })
		}
		if !in {
			continue
		}
		switch {
		case c.Settled != nil:
			return "not settled: ask", nil
		case c.With != "":
			return "supplied by the item at " + c.With, nil
		case c.Outcome != "fitted":
			return map[string]string{"none": "nothing is fitted here", "planned": "a part is planned", "ask": "find out first", "gap": "not listed: ask"}[c.Outcome], nil
		}
		var words []string
		for _, a := range c.Alternatives {
			var choice []offer
			var items []string
			for _, i := range a {
				choice = append(choice, offer{float64(i.Quantity), i.Part})
				items = append(items, fmt.Sprintf("%d × %s", i.Quantity, i.Part))
			}
			choices, words = append(choices, choice), append(words, strings.Join(items, " and "))
		}
		return strings.Join(words, " or "), choices
	}
	return "no such place", nil
}

// answer gives the way that a vehicle takes from a question.
func (a *asked) answer(t *testing.T, v vehicle) *asked {
	is, applies := v[a.Ask]
	if !applies {
		is = "does not apply"
	}
	for label, next := range a.Ways {
		if covers(a.Ask, label, is) {
			return next
		}
	}
	require.Fail(t, "no answer is true of the vehicle", "%s of %v", a.Ask, v)
	return nil
}

// covers tells whether the words of an answer hold a value: `Leaf or Rubber`, `2004 to
// 2010, 2012`, `2004 (4)`, `1/4 in (6.35 mm)`.
func covers(ask, label, is string) bool {
	label = strings.ReplaceAll(label, "\u00a0", " ")
	if ask != "Model year" {
		for _, word := range strings.FieldsFunc(strings.ReplaceAll(label, " or ", "\x00"), func(r rune) bool { return r == 0 || r == ',' }) {
			if is == "does not apply" && strings.HasSuffix(word, " (no "+ask+")") {
				return true
			}
			word, _, _ = strings.Cut(word, " (")
			if word = strings.TrimSpace(word); strings.EqualFold(word, is) || within(word, is) {
				return true
			}
		}
		return false
	}
	for _, span := range strings.Split(label, ", ") {
		from, to, several := strings.Cut(strings.Split(span, " (")[0], " to ")
		if !several {
			to = from
		}
		if from <= is && is <= to {
			return true
		}
	}
	return false
}

func checkKeyboard(t *testing.T, want *published, v vehicle, at *asked, reached map[*asked]bool) {
	first := true
	for at.End == nil {
		require.True(t, first || at.Home, "the focus is not on the question after an answer")
		at, first = at.answer(t, v), false
	}
	require.True(t, at.Home)
	reached[at] = true
	var end map[string]found
	require.NoError(t, json.Unmarshal(at.End, &end))
	checkEnd(t, want, v, end)
}

// checkEnd holds what is shown of a vehicle that is known against what is published.
func checkEnd(t *testing.T, want *published, v vehicle, end map[string]found) {
	for i, p := range want.Positions {
		brief, choices := want.says(t, i, v)
		got, shown := end[p.Position]
		if !shown {
			require.Equal(t, "no such place", brief, "%s is not on the page of a vehicle that has it: %v", p.Position, v)
			continue
		}
		require.Equal(t, brief, strings.ReplaceAll(got.Brief, "\u00a0", " "), "%s of %v", p.Position, v)
		require.Equal(t, choices, got.Choices, "%s of %v", p.Position, v)
		require.Equal(t, brief != "no such place", got.Lines > 0, "a line is marked where there is one: %s of %v", p.Position, v)
	}
}

func checkPlain(t *testing.T, want *published, v vehicle, places map[string]*asked) {
	for i, p := range want.Positions {
		brief, choices := want.says(t, i, v)
		at, shown := places[p.Position]
		if !shown {
			require.Equal(t, "no such place", brief, p.Position)
			continue
		}
		for at.End == nil {
			at = at.answer(t, v)
		}
		var end found
		require.NoError(t, json.Unmarshal(at.End, &end))
		require.True(t, strings.HasPrefix(strings.ReplaceAll(end.Brief, "\u00a0", " "), brief), "%s of %v: %q, not %q", p.Position, v, end.Brief, brief)
		if choices == nil {
			choices = [][]offer{}
			if brief == "no such place" {
				choices = nil
			}
		}
		require.Equal(t, choices, end.Choices, "%s of %v", p.Position, v)
	}
}

func ends(a *asked) int {
	if a.End != nil {
		return 1
	}
	n := 0
	for _, next := range a.Ways {
		n += ends(next)
	}
	return n
}
