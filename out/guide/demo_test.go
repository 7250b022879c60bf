package guide_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/guide"
)

func opened(res *compiler.Result) []*decide.Guide {
	var out []*decide.Guide
	for _, p := range res.Guides {
		out = append(out, p.Open())
	}
	return out
}

// demoSample compiles the demo catalogue.
func demoSample(t *testing.T) *sample {
	t.Helper()
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{"../../testdata/demo"}},
		compiler.Options{Today: "2027-03-01", Guides: true})
	require.NoError(t, err)
	require.True(t, res.Whole)
	return &sample{Cat: res.Catalogue, Guides: opened(res), pictures: res.Pictures}
}

func TestDemo(t *testing.T) {
	s := demoSample(t)
	pages := s.pages(t, guide.Options{})
	base := strings.TrimRight(s.Cat.Settings.BaseURL, "/") + "/"
	checkLinks(t, pages, base)
	checkStructure(t, pages)
	for name, page := range pages {
		for _, v := range s.Cat.Vehicles {
			if v.Note != "" {
				assert.NotContains(t, page, v.Note, name)
			}
		}
		for _, r := range s.Cat.References {
			if r.Note != "" {
				assert.NotContains(t, page, r.Note, name)
			}
		}
	}
}

// Each case of the demo is one row of its place's table, in order, and says what the
// case says.
func TestDemoRowByRow(t *testing.T) {
	s := demoSample(t)
	pages := s.pages(t, guide.Options{})
	seen := map[model.Outcome]int{}
	for _, g := range s.Guides {
		root := parse(t, pages["platforms/"+strings.ToLower(g.Platform.Name)+".html"])
		for _, a := range g.Answers {
			if a.Configurations.Sign() == 0 {
				continue
			}
			id := "at-" + strings.ToLower(strings.ReplaceAll(a.Position.Name, " ", "-"))
			got := rows(byID(t, root, id))[1:]
			require.Len(t, got, len(a.Cases), "%s %s", g.Platform.Name, a.Position.Name)
			for i := range a.Cases {
				checkRow(t, got[i][len(got[i])-1], &a.Cases[i])
				seen[a.Cases[i].Outcome]++
			}
		}
	}
	for _, o := range []model.Outcome{model.Fitted, model.None, model.Planned, model.Ask, model.Gap} {
		assert.Positive(t, seen[o], "the demo has no case of the kind %s", o)
	}
}

func checkRow(t *testing.T, got string, c *decide.Case) {
	t.Helper()
	begins := map[model.Outcome]string{
		model.None: "Nothing is fitted here", model.Planned: "A part is planned.", model.Ask: "Find out first",
		model.Gap: "Not listed: ask", model.Conflict: "This is not settled",
	}
	if c.Unsettled {
		assert.True(t, strings.HasPrefix(got, "This is not settled"), got)
	} else {
		assert.True(t, strings.HasPrefix(got, begins[c.Outcome]), got)
	}
	at := 0
	for _, a := range c.Alternatives {
		for _, i := range a {
			if c.Unsettled {
				assert.NotContains(t, got, i.Part.Number)
				continue
			}
			found := strings.Index(got[at:], i.Part.Number)
			require.GreaterOrEqual(t, found, 0, "%s is missing, or out of order, in %q", i.Part.Number, got)
			at += found
		}
	}
}
