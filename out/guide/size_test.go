package guide_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/decide"
	"ferrule/compiler/model"
	"ferrule/out/guide"
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
		g := &decide.Guide{Platform: pl, Traits: []decide.TraitUse{{Trait: front, Values: set(0, 1, 2, 3)}}}
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

func TestPageOf200RowsIsSmall(t *testing.T) {
	page := large(1, 200, 300).pages(t, guide.Options{})["platforms/platform-0.html"]
	require.Len(t, all(parse(t, page), tag("tr")), 215)
	assert.Less(t, len(page), 100_000)
	t.Logf("%d bytes", len(page))
}

// BenchmarkPages makes the pages of 100 platforms and 1,000 parts.
func BenchmarkPages(b *testing.B) {
	s := large(100, 60, 1000)
	var size int64
	count := func(_ string, data []byte) error { size += int64(len(data)); return nil }
	require.NoError(b, guide.Pages(s.Cat, s.Guides, guide.Options{}, count))
	b.SetBytes(size)
	b.ReportAllocs()
	for b.Loop() {
		require.NoError(b, guide.Pages(s.Cat, s.Guides, guide.Options{}, count))
	}
	b.ReportMetric(1101*float64(b.N)/b.Elapsed().Seconds(), "pages/s")
}
