package pick_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/judge"
	"ferrule/compiler/model"
)

// ways says what a list knows of its places, whatever the order of their ways, and by which of several
// traits that would do they are told apart.
func ways(l *pick.List) string {
	var out []string
	for _, p := range l.Positions {
		var all []string
		for _, w := range p.Ways {
			fits := model.Fits{Outcome: w.Case.Outcome, With: w.Case.With, Alternatives: w.Case.Alternatives}
			care := make([]string, len(w.Care))
			for i, c := range w.Care {
				care[i] = c.Reason
			}
			all = append(all, fmt.Sprint(w.Missing, w.Settled(), fits.Key(0), w.Case.Texts, w.Case.Notes, care))
		}
		slices.Sort(all)
		out = append(out, fmt.Sprint(p.Position.Name, " ", all, len(p.Depends) > 0))
	}
	return strings.Join(out, "\n")
}

// TestCrowdIsPick tells random things of vehicles of the demo, numbers and dates among them, and holds
// what is worked out from the whole platform against what pick works out for the vehicle alone.
func TestCrowdIsPick(t *testing.T) {
	cat := catalogue(t, "demo")
	desk := pick.NewLookup(cat)
	grounds := judge.NewGrounds(cat)
	r := rand.New(rand.NewPCG(40, 22))
	some, none, looked := 0, 0, 0
	for _, p := range cat.Platforms {
		g, ok := grounds.Of(t.Context(), p)
		require.True(t, ok)
		crowd := desk.NewCrowd(g)
		require.NotNil(t, crowd)
		for range 24 {
			q, err := desk.Query(p.Name, "", tellings(r, cat, p))
			require.NoError(t, err)
			want, err := desk.List(t.Context(), q)
			require.NoError(t, err)
			got, ok := crowd.List(q)
			require.True(t, ok)
			require.Equal(t, want.Missing(), got.Missing(), "%s %s", p.Name, q.Box())
			if want.Missing() {
				none++
				assert.Len(t, got.Near, len(want.Near), q.Box())
				continue
			}
			some++
			assert.Equal(t, ways(want), ways(got), "%s %s", p.Name, q.Box())
			assert.Equal(t, want.Order, got.Order)
			assert.Equal(t, looks(want), looks(got), "%s %s", p.Name, q.Box())
			looked += len(got.Inspections)
		}
	}
	assert.Greater(t, some, 30)
	assert.Greater(t, none, 10)
	assert.Greater(t, looked, 30)
}

// looks lists what to look at before anything is fitted.
func looks(l *pick.List) []string {
	var out []string
	for _, u := range l.Inspections {
		out = append(out, u.Row.At.String())
	}
	return out
}

// tellings tells a few things of a vehicle.
func tellings(r *rand.Rand, cat *model.Catalogue, p *model.Platform) []string {
	var out []string
	if r.IntN(2) == 0 {
		out = append(out, fmt.Sprint("Year=", p.Years[r.IntN(len(p.Years))]))
	}
	for _, t := range cat.Traits {
		switch {
		case r.IntN(4) > 0:
		case t.Kind == model.Serial && len(t.Extent(p)) > 0:
			out = append(out, fmt.Sprint(t.Name, "=", 1001+r.IntN(8400)))
		case t.Kind == model.Date && len(t.Extent(p)) > 0:
			out = append(out, fmt.Sprintf("%s=%d-%02d", t.Name, 2006+r.IntN(12), 1+r.IntN(12)))
		case !t.Kind.OnLine():
			if n := r.IntN(len(t.Values) + 1); n < len(t.Values) {
				out = append(out, t.Name+"="+t.Values[n].Name)
			}
		}
	}
	return out
}
