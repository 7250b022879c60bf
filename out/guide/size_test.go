package guide_test

import (
	"fmt"
	"math/big"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/guide"
	"ferrule/sheets/cell"
)

// large is a catalogue of many platforms, 15 positions each with a number of cases,
// and many parts.
func large(platforms, cases, parts int) *sample {
	s := newSample()
	s.Cat.Platforms, s.Guides, s.Cat.Parts, s.Cat.Positions = nil, nil, nil, nil
	for i := range parts {
		s.Cat.Parts = append(s.Cat.Parts, part(fmt.Sprintf("LX-%05d", i), "Damper, long travel", fmt.Sprint("Family ", i%40)))
	}
	for i := range 15 {
		s.Cat.Positions = append(s.Cat.Positions, &model.Position{Index: i, Name: fmt.Sprint("Position ", i), Axle: "front", Side: "left"})
	}
	front := s.Cat.Traits[0]
	for i := range platforms {
		pl := &model.Platform{Index: i, Name: fmt.Sprint("Platform ", i), Maker: "Tarn Chassis", Years: []int{2004}}
		s.Cat.Platforms = append(s.Cat.Platforms, pl)
		g := &decide.Guide{Platform: pl, Traits: []model.TraitSet{{Trait: front, Values: set(0, 1, 2, 3)}}}
		for j, pos := range s.Cat.Positions {
			a := &decide.Answer{Position: pos, Exact: true, Configurations: big.NewInt(1)}
			for k := j; k < cases; k += 15 {
				a.Cases = append(a.Cases, decide.Case{
					Where:   model.Box{Years: []model.Span{{From: 2004, To: 2004}}, Traits: []model.TraitSet{{Trait: front, Values: set(0, 2)}}},
					Outcome: model.Fitted, Quantity: 1, Alternatives: []model.Alternative{one(1, s.Cat.Parts[(i*31+k)%parts]), one(2, s.Cat.Parts[k%parts])},
				})
			}
			g.Answers = append(g.Answers, a)
		}
		s.Guides = append(s.Guides, g)
	}
	return s
}

// detailed compiles a platform of 14 positions with 200 rows together: a tree of questions
// for each position, texts that say how to tell, and two parts to choose from in every
// fifth row.
func detailed(t *testing.T) *sample {
	cat := &model.Catalogue{Settings: newSample().Cat.Settings, YearTell: tell("On the plate inside the entrance door, second line from the top.")}
	pl := &model.Platform{Name: "Heron 9", Maker: "Tarn Chassis", Years: []int{2004, 2005, 2006, 2007, 2008, 2009, 2010, 2011, 2012, 2013, 2014, 2015, 2016, 2017, 2018, 2019}}
	cat.Platforms = []*model.Platform{pl}
	v := &model.Vehicles{}
	for i := range 8 {
		tr := trait(i, fmt.Sprint("Levelling ", i), "Mechanical", "Electronic", "No tag axle")
		tr.Question = "What sets the height of the vehicle here?"
		for _, v := range tr.Values {
			v.Tell = tell("Find the small lever that a rod moves as the axle rises and falls, and look at what it turns.")
		}
		cat.Traits = append(cat.Traits, tr)
		v.When.Traits = append(v.When.Traits, model.TraitSet{Trait: tr, Values: set(0, 1, 2)})
	}
	cat.Vehicles = []*model.Vehicles{v}
	for i := range 60 {
		cat.Parts = append(cat.Parts, part(fmt.Sprintf("LX-%05d", i), "Damper, long travel, heavy", "Dampers"))
	}
	for i := range 14 {
		pos := &model.Position{Index: i, Name: fmt.Sprint("Front damper ", i), Axle: []string{"front", "drive", "tag"}[i%3], Side: []string{"left", "right"}[i%2]}
		pos.Rows = []*model.PositionRow{{Position: pos, Quantity: 1}}
		cat.Positions = append(cat.Positions, pos)
		spans := []model.Span{{From: 2004, To: 2008}, {From: 2009, To: 2014}, {From: 2015, To: 2019}}
		if i == 13 {
			spans = spans[:1]
			spans[0].To = 2019
		}
		for _, span := range spans {
			for k := range 5 { // two values of one trait, and for the third all of another
				when := model.When{Years: &model.Years{Spans: []model.Span{span}},
					Traits: []model.TraitSet{{Trait: cat.Traits[i%8], Values: set(min(k, 2))}}}
				if k >= 2 {
					when.Traits = append(when.Traits, model.TraitSet{Trait: cat.Traits[(i+3)%8], Values: set(k - 2)})
				}
				n := len(cat.Fitments)
				f := &model.Fitment{Index: n, When: when, At: cell.Place{Sheet: &cell.Sheet{Name: "Fitment"}, Pos: cell.Pos{Row: int32(n + 2)}}}
				offers := []model.Alternative{one(2, cat.Parts[n%60])}
				if k == 0 {
					offers = append(offers, one(2, cat.Parts[(n+1)%60]))
				}
				f.Cells = []*model.FitCell{{Row: f, Position: pos, At: f.At, Fits: &model.Fits{Outcome: model.Fitted, Alternatives: offers}}}
				cat.Fitments = append(cat.Fitments, f)
			}
		}
	}
	guides, err := judge.Platforms(t.Context(), cat, judge.Options{Ledger: accept.New(cat, ""), Use: accept.Use{}, Cases: true}, func(*finding.Finding) {})
	require.NoError(t, err)
	return &sample{Cat: cat, Guides: guides}
}

func TestPageOf200RowsIsSmall(t *testing.T) {
	pages := detailed(t).pages(t, guide.Options{})
	page := pages["platforms/heron-9.html"]
	root := parse(t, page)
	require.Len(t, rows(root), 214)
	reached := map[string]bool{}
	for _, a := range all(all(root, class("steps"))[0], tag("a")) {
		if href := attr(a, "href"); strings.HasPrefix(href, "#r") {
			reached[href] = true
		}
	}
	require.Len(t, reached, 200, "each line is reached by questions")
	assert.Less(t, len(page), 132_000)
	scripts := 0
	for _, s := range all(root, tag("script")) {
		file := path.Base(attr(s, "src"))
		require.NotEmpty(t, pages[file], file)
		scripts += len(pages[file])
	}
	assert.Less(t, scripts, 25_000) // of which the texts of the finder and the ways to say them in another language are 4,000
	t.Logf("%d bytes, scripts %d bytes", len(page), scripts)
}

// BenchmarkPages makes the pages of 100 platforms and 1,000 parts.
func BenchmarkPages(b *testing.B) {
	s := large(100, 60, 1000)
	var size int64
	count := func(_ string, data []byte) error { size += int64(len(data)); return nil }
	require.NoError(b, pages(s.Cat, s.Guides, guide.Options{}, count))
	b.SetBytes(size)
	b.ReportAllocs()
	for b.Loop() {
		require.NoError(b, pages(s.Cat, s.Guides, guide.Options{}, count))
	}
	b.ReportMetric(1101*float64(b.N)/b.Elapsed().Seconds(), "pages/s")
}
