package walk_test

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/judge/identify/walk"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// made is a random catalogue of one platform, decided, with its configurations.
type made struct {
	cat     *model.Catalogue
	p       *decide.Platform
	guide   *decide.Guide
	asks    *walk.Guide
	configs [][]int
}

func newMade(t *testing.T, r *rand.Rand) *made {
	m := &made{cat: randomCatalogue(r)}
	guides, err := judge.Platforms(t.Context(), m.cat, judge.Options{Ledger: accept.New(m.cat, ""), Use: accept.Use{}, Cases: true},
		func(*finding.Finding) {})
	require.NoError(t, err)
	m.decided(t, guides[0])
	return m
}

// decided lists the configurations of the platform of a guide.
func (m *made) decided(t *testing.T, g *decide.Guide) {
	var err error
	m.p, err = decide.NewPlatform(decide.NewIndex(m.cat), g.Platform, nil, 0)
	require.NoError(t, err)
	m.guide, m.asks = g, walk.Of(g)
	traits := make([]int, len(m.cat.Traits)+1)
	for i := range traits {
		traits[i] = i
	}
	m.p.View(m.p.All, traits).Each(func(v []int, _ *big.Int) bool {
		m.configs = append(m.configs, slices.Clone(v))
		return true
	})
}

// class gives the class of the case that holds a configuration, the one after the last
// where the position does not exist.
func (m *made) class(a *decide.Answer, c []int) int {
	for i := range a.Cases {
		if m.p.Bounds(&model.When{Traits: a.Cases[i].Where.Traits, Years: yearsOf(a.Cases[i].Where)}).Has(c) {
			return a.Cases[i].Class
		}
	}
	return a.Classes
}

func yearsOf(b model.Box) *model.Years {
	if b.Years == nil {
		return nil
	}
	return &model.Years{Spans: b.Years}
}

// weight is how many vehicles of a configuration are on the road; one where the
// catalogue says it of none.
func (m *made) weight(c []int) *big.Rat {
	if len(m.p.Roads()) == 0 {
		return big.NewRat(1, 1)
	}
	sum := new(big.Rat)
	for _, r := range m.p.Roads() {
		if r.Box.Has(c) {
			sum.Add(sum, r.Per())
		}
	}
	return sum
}

func (m *made) effort(trait int) int {
	if trait == 0 {
		return m.cat.YearEffort(m.guide.Platform)
	}
	return m.cat.Traits[trait-1].EffortOn(m.guide.Platform)
}

func randomCatalogue(r *rand.Rand) *model.Catalogue {
	cat := &model.Catalogue{YearTell: []model.Tell{{Text: "VIN", Effort: 1 + r.IntN(3)}}}
	pl := &model.Platform{Name: "Heron", Years: []int{2001, 2002, 2003, 2004, 2005}}
	cat.Platforms = []*model.Platform{pl}
	for i := range 3 + r.IntN(3) {
		t := &model.Trait{Index: i, Name: fmt.Sprint("Trait ", i), Effort: 1 + r.IntN(4)}
		for v := range 2 + r.IntN(2) {
			t.Values = append(t.Values, &model.Value{Name: fmt.Sprint(v), Tell: []model.Tell{{Text: "look"}}})
		}
		cat.Traits = append(cat.Traits, t)
	}
	for i := range 2 + r.IntN(4) {
		v := &model.Vehicles{When: randomWhen(r, cat, len(cat.Traits), true)}
		if i > 0 && r.IntN(3) > 0 {
			v.Road = model.Number{Rat: big.NewRat(int64(1+r.IntN(500)), 1)}
		}
		cat.Vehicles = append(cat.Vehicles, v)
	}
	for i := range 8 {
		cat.Parts = append(cat.Parts, &model.Part{Number: fmt.Sprint("P-", i), Known: true, Listed: true})
	}
	for i := range 2 + r.IntN(5) {
		pos := &model.Position{Index: i, Name: fmt.Sprint("Place ", i)}
		pos.Rows = []*model.PositionRow{{Position: pos, Quantity: 1, When: randomWhen(r, cat, r.IntN(2), false)}}
		cat.Positions = append(cat.Positions, pos)
		names := 1 + r.IntN(3)
		for n := range 2 + r.IntN(4) {
			at := cell.Place{Sheet: &cell.Sheet{File: "made.xlsx", Name: "Fitment"}, Pos: cell.Pos{Row: int32(len(cat.Fitments) + 2), Col: 1}}
			f := &model.Fitment{Index: len(cat.Fitments), Row: at.Pos.Row, At: at, Precedence: n, When: randomWhen(r, cat, names, false)}
			f.Cells = []*model.FitCell{{Row: f, Position: pos, At: at, Fits: &model.Fits{Outcome: model.Fitted,
				Alternatives: []model.Alternative{{{Part: cat.Parts[r.IntN(8)], Quantity: 1}}}}}}
			cat.Fitments = append(cat.Fitments, f)
		}
	}
	return cat
}

// randomWhen names at most so many traits, or all of them.
func randomWhen(r *rand.Rand, cat *model.Catalogue, names int, all bool) model.When {
	w := model.When{Platforms: cat.Platforms}
	if r.IntN(2) == 0 {
		from := 2001 + r.IntN(5)
		w.Years = &model.Years{Spans: []model.Span{{From: from, To: from + r.IntN(3)}}}
	}
	for i, t := range cat.Traits {
		if !all && (names == 0 || r.IntN(2) == 0) {
			continue
		}
		names--
		set := space.SetOf(r.IntN(len(t.Values)+1), r.IntN(len(t.Values)))
		if all && r.IntN(3) == 0 {
			set = space.All(len(t.Values))
		}
		w.Traits = append(w.Traits, model.TraitSet{Trait: cat.Traits[i], Values: set})
	}
	return w
}
