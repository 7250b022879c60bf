package pick_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// What follows from each single value that can be told is what plain counting finds: of
// every trait that was not told the values of such vehicles, where others have more.
func TestWhatFollows(t *testing.T) {
	cat := catalogue(t, "demo")
	desk := pick.NewLookup(cat)
	told := 0
	for _, p := range cat.Platforms {
		all := exist(cat, p)
		if len(all) == 0 {
			continue // it has a number or a date: TestNumbersOneByOne counts such
		}
		for _, of := range cat.Traits {
			for v, value := range of.Values {
				q, err := desk.Query(p.Name, "", []string{of.Name + "=" + value.Name})
				require.NoError(t, err)
				l, err := desk.List(t.Context(), q)
				require.NoError(t, err)
				var such []*vehicle
				for _, w := range all {
					if w.values[of.Index] == v {
						such = append(such, w)
					}
				}
				require.Equal(t, follows(cat, p, of, all, such), l.So, "%s, %s %s", p.Name, of.Name, value.Name)
				told += min(1, len(such))
			}
		}
	}
	require.Greater(t, told, 50)
}

func follows(cat *model.Catalogue, p *model.Platform, told *model.Trait, all, such []*vehicle) model.Box {
	var out model.Box
	if len(such) == 0 {
		return out
	}
	years := map[int]bool{}
	for _, v := range such {
		years[v.year] = true
	}
	for _, y := range p.Years {
		n := len(out.Years)
		switch {
		case !years[y] || len(years) == len(p.Years):
		case n > 0 && out.Years[n-1].To == y-1:
			out.Years[n-1].To = y
		default:
			out.Years = append(out.Years, model.Span{From: y, To: y})
		}
	}
	for _, t := range cat.Traits {
		has, in := valuesOf(all, t), valuesOf(such, t)
		if t != told && fmt.Sprint(has) != fmt.Sprint(in) {
			out.Traits = append(out.Traits, model.TraitSet{Trait: t, Values: in})
		}
	}
	return out
}

func valuesOf(vehicles []*vehicle, t *model.Trait) space.Set {
	var out space.Set
	for _, v := range vehicles {
		out = out.Or(space.SetOf(v.values[t.Index]))
	}
	return out
}
