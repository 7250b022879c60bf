package judge_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/compiler/tidy/yardstick"
)

// numbers is how long the extent of the serial numbers is, and values how many values the trait
// has that they are held against: a row's range begins and ends with one of as many blocks.
const numbers, blocks = 1_000_000_000, 201

// numbered gives a catalogue one more trait: half of the fitment rows ask for a range of blocks, as
// values of a trait or as serial numbers.
func (s shape) numbered(serial bool) *model.Catalogue {
	cat := s.make()
	r := rand.New(rand.NewPCG(s.seed, 11))
	t := &model.Trait{Index: len(cat.Traits), Name: "Block", Effort: 1, Tell: []model.Tell{{Text: "look"}}}
	cat.Traits = append(cat.Traits, t)
	of := func(lo, hi int) model.TraitSet { return model.TraitSet{Trait: t, Values: space.Range(lo, hi)} }
	if serial {
		t.Kind = model.Serial
		first := func(block int) int64 { return int64(block) * (numbers / blocks) }
		t.Extents = []model.Extent{{Values: line.SetOf(line.Range{From: 0, To: first(blocks) - 1})}}
		of = func(lo, hi int) model.TraitSet {
			return model.TraitSet{Trait: t, Values: space.Set{}, Line: &model.Line{Ranges: line.SetOf(line.Range{From: first(lo), To: first(hi+1) - 1})}}
		}
	} else {
		for range blocks {
			t.Values = append(t.Values, &model.Value{Name: "block"})
		}
	}
	for _, v := range cat.Vehicles {
		v.When.Traits = append(v.When.Traits, of(0, blocks-1))
	}
	for _, f := range cat.Fitments {
		if r.IntN(2) == 0 {
			lo := r.IntN(blocks)
			f.When.Traits = append(f.When.Traits, of(lo, lo+r.IntN(blocks-lo)))
		}
	}
	return cat
}

// BenchmarkStretches checks platforms with about 200 cuts in an extent of 10⁹ numbers. The metric
// is how many times longer that takes than the same with a trait of 201 values, in processor time.
func BenchmarkStretches(b *testing.B) {
	s := typical
	s.platforms, s.rows = 20, 14
	values, serial := s.numbered(false), s.numbered(true)
	var plain, stretched time.Duration
	for b.Loop() {
		start := yardstick.ProcessorTime()
		n := run(b, values, 1)
		between := yardstick.ProcessorTime()
		if m := run(b, serial, 1); m != n {
			b.Fatalf("%d findings, and %d with serial numbers", n, m)
		}
		plain, stretched = plain+between-start, stretched+yardstick.ProcessorTime()-between
		b.ReportMetric(float64(n), "findings")
	}
	b.ReportMetric(float64(stretched)/float64(plain), "x-values")
	b.ReportMetric(0, "ns/op")
}
