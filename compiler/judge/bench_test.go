package judge_test

import (
	"cmp"
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// shape is the size of a made catalogue.
type shape struct {
	platforms, traits, values, positions, rows int
	seed                                       uint64
	slips                                      int // one row in so many is lost, and one too wide; 0: in 50
}

// typical is a firm's whole range; large is one platform with very many vehicles.
var (
	typical = shape{platforms: 2000, traits: 8, values: 4, positions: 15, rows: 8, seed: 1}
	large   = shape{platforms: 1, traits: 16, values: 6, positions: 20, rows: 1000, seed: 2}
)

// make builds a catalogue of the shape: the rows of a position split it by a few
// traits, as people do, with some slips that overlap or leave a gap.
func (s shape) make() *model.Catalogue {
	r := rand.New(rand.NewPCG(s.seed, s.seed))
	sheet := &cell.Sheet{File: "made.xlsx", Name: "Fitment"}
	cat := &model.Catalogue{}
	for i := range s.traits {
		t := &model.Trait{Index: i, Name: fmt.Sprintf("Trait %d", i), Effort: 1}
		for v := range s.values {
			t.Values = append(t.Values, &model.Value{Name: fmt.Sprintf("Value %d", v), Tell: []model.Tell{{Text: "look"}}})
		}
		cat.Traits = append(cat.Traits, t)
	}
	parts := make([]*model.Part, 40)
	for i := range parts {
		parts[i] = &model.Part{Number: fmt.Sprintf("P-%d", i), Known: true, Listed: true}
	}
	cat.Parts = parts
	for i := range s.positions {
		p := &model.Position{Index: i, Name: fmt.Sprintf("Position %d", i)}
		p.Rows = []*model.PositionRow{{Position: p, Quantity: 1}}
		cat.Positions = append(cat.Positions, p)
	}
	for i := range s.platforms {
		p := &model.Platform{Index: i, Name: fmt.Sprintf("H%d", i)}
		for y := 2000; y < 2016; y++ {
			p.Years = append(p.Years, y)
		}
		cat.Platforms = append(cat.Platforms, p)
		s.platform(r, cat, p, parts, sheet)
	}
	return cat
}

func (s shape) platform(r *rand.Rand, cat *model.Catalogue, p *model.Platform, parts []*model.Part, sheet *cell.Sheet) {
	on := []*model.Platform{p}
	for range 6 {
		v := &model.Vehicles{When: model.When{Platforms: on, Years: &model.Years{Spans: []model.Span{{From: 2000 + r.IntN(8), To: 2008 + r.IntN(8)}}}}}
		for _, t := range cat.Traits {
			v.When.Traits = append(v.When.Traits, model.TraitSet{Trait: t, Values: some(r, s.values)})
		}
		cat.Vehicles = append(cat.Vehicles, v)
	}
	for _, pos := range cat.Positions {
		for _, w := range s.split(r, cat, pos, p) {
			f := &model.Fitment{Index: len(cat.Fitments), Row: int32(len(cat.Fitments) + 2), When: w}
			f.At = cell.Place{Sheet: sheet, Pos: cell.Pos{Row: int32(len(cat.Fitments) + 2), Col: 1}}
			f.Cells = append(f.Cells, s.cell(r, f, pos, parts, 5))
			cat.Fitments = append(cat.Fitments, f)
		}
	}
}

// split cuts a platform into as many conditions as a position has rows, by a few
// traits and the year, as people do who know what the part depends on. Some rows
// are lost, and as many are too wide.
func (s shape) split(r *rand.Rand, cat *model.Catalogue, pos *model.Position, p *model.Platform) []model.When {
	first := r.IntN(len(cat.Traits))
	traits := []*model.Trait{cat.Traits[first], cat.Traits[(first+1)%len(cat.Traits)], cat.Traits[(first+3)%len(cat.Traits)]}
	rows := []space.Box{{space.All(16), space.All(s.values), space.All(s.values), space.All(s.values)}}
	for len(rows) < s.rows {
		i, dim := r.IntN(len(rows)), r.IntN(4)
		set := rows[i][dim]
		if set.Len() < 2 {
			continue
		}
		at := set.Min() + 1 + r.IntN(set.Max()-set.Min())
		low, high := set.And(space.Range(0, at-1)), set.And(space.Range(at, 63))
		if low.Len() == 0 || high.Len() == 0 {
			continue
		}
		rows = append(rows, rows[i].With(dim, high))
		rows[i] = rows[i].With(dim, low)
	}
	var out []model.When
	for _, b := range rows {
		slip := r.IntN(cmp.Or(s.slips, 50))
		if slip == 0 {
			continue
		}
		w := model.When{Platforms: []*model.Platform{p}}
		if y := b[0]; y.Len() < 16 {
			w.Years = &model.Years{Spans: []model.Span{{From: 2000 + y.Min(), To: 2000 + y.Max()}}}
		}
		for k, t := range traits {
			if set := b[k+1]; set.Len() < s.values && (slip != 1 || k > 0) {
				w.Traits = append(w.Traits, model.TraitSet{Trait: t, Values: set})
			}
		}
		slices.SortFunc(w.Traits, func(a, b model.TraitSet) int { return a.Trait.Index - b.Trait.Index })
		out = append(out, w)
	}
	return out
}

func (s shape) cell(r *rand.Rand, f *model.Fitment, pos *model.Position, parts []*model.Part, col int32) *model.FitCell {
	part := parts[r.IntN(len(parts))]
	return &model.FitCell{Row: f, Position: pos, At: f.At.At(cell.Pos{Row: f.At.Pos.Row, Col: col}),
		Fits: &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{{{Part: part}}}}}
}

func some(r *rand.Rand, n int) space.Set {
	set := space.SetOf(r.IntN(n))
	for range r.IntN(n) {
		set = set.Or(space.SetOf(r.IntN(n)))
	}
	return set
}

func run(b testing.TB, cat *model.Catalogue, workers int) int {
	n := 0
	_, err := judge.Platforms(context.Background(), cat, judge.Options{Ledger: accept.New(cat, "2027-03-01"), Use: accept.Use{}, Workers: workers},
		func(*finding.Finding) { n++ })
	if err != nil {
		b.Fatal(err)
	}
	return n
}

// BenchmarkTypical works on a tenth of a typical catalogue, on one core and on two.
func BenchmarkTypical(b *testing.B) {
	s := typical
	s.platforms /= 10
	cat := s.make()
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("cores=%d", workers), func(b *testing.B) {
			for b.Loop() {
				b.ReportMetric(float64(run(b, cat, workers)), "findings")
			}
		})
	}
}

// BenchmarkGuides works on the same with what guides are made of: cases, and what to ask.
func BenchmarkGuides(b *testing.B) {
	s := typical
	s.platforms /= 10
	cat := s.make()
	for b.Loop() {
		guides, err := judge.Platforms(context.Background(), cat, judge.Options{Ledger: accept.New(cat, ""), Use: accept.Use{}, Workers: 1, Cases: true}, func(*finding.Finding) {})
		if err != nil {
			b.Fatal(err)
		}
		asked, exact := 0, 0
		for _, g := range guides {
			for _, a := range g.Answers {
				if a.Questions.Tree != nil {
					asked++
				}
				if a.Questions.Exact {
					exact++
				}
			}
		}
		b.ReportMetric(float64(asked)/float64(len(guides)*len(cat.Positions)), "asked")
		b.ReportMetric(float64(exact)/float64(len(guides)*len(cat.Positions)), "exact")
	}
}

// BenchmarkLarge works on one platform with very many vehicles.
func BenchmarkLarge(b *testing.B) {
	cat := large.make()
	for b.Loop() {
		b.ReportMetric(float64(run(b, cat, 1)), "findings")
	}
}

// BenchmarkOnePlatform checks one typical platform, as at a save, and finds the gaps of
// the same platform by going through its configurations one by one; the metric is how
// many times longer the second takes.
func BenchmarkOnePlatform(b *testing.B) {
	s := typical
	s.platforms = 1
	cat := s.make()
	var algebra, plain time.Duration
	for b.Loop() {
		start := time.Now()
		run(b, cat, 1)
		algebra += time.Since(start)
	}
	start := time.Now()
	gaps := enumerate(cat)
	plain = time.Since(start)
	b.ReportMetric(float64(plain)/(float64(algebra)/float64(b.N)), "enumeration/algebra")
	b.ReportMetric(float64(gaps), "gaps")
}

// enumerate counts the configurations without a part at some position of the first
// platform, one by one.
func enumerate(cat *model.Catalogue) int {
	p := cat.Platforms[0]
	seen := map[string]bool{}
	gaps := 0
	config := make([]byte, len(cat.Traits)+1)
	var walk func(v *model.Vehicles, t int)
	walk = func(v *model.Vehicles, t int) {
		if t == len(cat.Traits) {
			if !seen[string(config)] {
				seen[string(config)] = true
				gaps += missing(cat, p, config)
			}
			return
		}
		for value := range v.When.Traits[t].Values.Values() {
			config[t+1] = byte(value)
			walk(v, t+1)
		}
	}
	for _, v := range cat.Vehicles {
		for i, y := range p.Years {
			if v.When.Years.Has(y) {
				config[0] = byte(i)
				walk(v, 0)
			}
		}
	}
	return gaps
}

// missing counts the positions at which no row matches a configuration.
func missing(cat *model.Catalogue, p *model.Platform, config []byte) int {
	have := make([]bool, len(cat.Positions))
	for _, f := range cat.Fitments {
		if !f.When.Years.Has(p.Years[config[0]]) || slices.ContainsFunc(f.When.Traits, func(t model.TraitSet) bool {
			return !t.Values.Has(int(config[t.Trait.Index+1]))
		}) {
			continue
		}
		for _, c := range f.Cells {
			have[c.Position.Index] = true
		}
	}
	n := 0
	for _, h := range have {
		if !h {
			n++
		}
	}
	return n
}
