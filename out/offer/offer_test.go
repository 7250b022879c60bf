package offer

import (
	"fmt"
	"math/big"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/line"
	"ferrule/compiler/model"
)

// world is a catalogue with a part, a kit that holds it twice over, and two platforms.
type world struct {
	cat               *model.Catalogue
	bolt, bag, kit    *model.Part
	lift, levelling   *model.Trait
	damper, steering  *model.Position
	firstly, secondly *model.Platform
}

func newWorld() *world {
	w := &world{
		bolt: &model.Part{Number: "B-1"}, bag: &model.Part{Number: "K-1"}, kit: &model.Part{Number: "K-2"},
		lift:      &model.Trait{Index: 0, Name: "Lift axle", Values: []*model.Value{{Name: "Fitted"}}},
		levelling: &model.Trait{Index: 1, Name: "Levelling", Values: []*model.Value{{Name: "Valve"}, {Name: "Sensor"}}},
		damper:    &model.Position{Index: 0, Name: "Damper"}, steering: &model.Position{Index: 1, Name: "Steering damper"},
		firstly: &model.Platform{Index: 0, Name: "H1"}, secondly: &model.Platform{Index: 1, Name: "H2"},
	}
	w.bag.Contents = []model.Component{{Part: w.bolt, Quantity: 4}}
	w.kit.Contents = []model.Component{{Part: w.bag, Quantity: 2}, {Part: w.bolt, Quantity: 1}}
	w.cat = &model.Catalogue{Parts: []*model.Part{w.bolt, w.bag, w.kit}, Traits: []*model.Trait{w.lift, w.levelling},
		Positions: []*model.Position{w.damper, w.steering}, Platforms: []*model.Platform{w.firstly, w.secondly}}
	return w
}

func fitted(where model.Box, alternatives ...model.Alternative) decide.Case {
	return decide.Case{Where: where, Outcome: model.Fitted, Alternatives: alternatives}
}

func items(n int, parts ...*model.Part) model.Alternative {
	var a model.Alternative
	for _, p := range parts {
		a = append(a, model.Item{Part: p, Quantity: n})
	}
	return a
}

func years(from, to int, traits ...model.TraitSet) model.Box {
	return model.Box{Years: []model.Span{{From: from, To: to}}, Traits: traits}
}

// Guides may come in any order; offers stand in that of the catalogue. Boxes on which
// the same is offered are one offer.
func TestOffers(t *testing.T) {
	w := newWorld()
	l := New(w.cat, t.TempDir())
	valve := w.levelling.Is(0, 2)
	has := w.levelling.Is(0, 1, 2)
	early, late, raised := years(2001, 2003), years(2007, 2009), years(2004, 2006, valve)
	ghost := &model.Part{Number: "Z-404"}
	require.NoError(t, l.Add(&decide.Guide{Platform: w.secondly, Traits: []model.TraitSet{has}, Answers: []*decide.Answer{
		{Position: w.damper, Cases: []decide.Case{
			fitted(early, items(2, w.bolt), items(1, ghost)),
			{Where: years(2004, 2004), Outcome: model.Fitted, Unsettled: true, Alternatives: []model.Alternative{items(9, w.bolt)}},
			{Where: years(2005, 2005), Outcome: model.Ask},
			fitted(late, items(2, w.bolt), items(1, w.kit)),
		}},
		{Position: w.steering, Cases: []decide.Case{fitted(raised, items(3, w.kit))}},
	}}))
	require.NoError(t, l.Add(&decide.Guide{Platform: w.firstly, Answers: []*decide.Answer{
		{Position: w.damper, Cases: []decide.Case{fitted(model.Box{}, items(1, w.bolt))}}}}))

	got, err := l.Of(w.bolt)
	require.NoError(t, err)
	assert.Equal(t, []Offer{
		{Platform: w.firstly, Position: w.damper, Where: []model.Box{{}}, Of: 1, Count: 1},
		{Platform: w.secondly, Position: w.damper, Where: []model.Box{early, late}, Of: 2, Count: 2},
		{Platform: w.secondly, Position: w.damper, Where: []model.Box{late}, Choice: 1, Of: 2, Kit: w.kit, Count: 9},
		{Platform: w.secondly, Position: w.steering, Where: []model.Box{raised}, Has: []model.TraitSet{has}, Of: 1, Kit: w.kit, Count: 27},
	}, got)
	got, err = l.Of(w.bag)
	require.NoError(t, err)
	assert.Equal(t, []int{2, 6}, []int{got[0].Count, got[1].Count})
	got, err = l.Of(ghost)
	require.NoError(t, err)
	assert.Empty(t, got)
	require.NoError(t, l.Close())
}

// The stretches of a platform are no values of the catalogue: they come back as ranges.
func TestOffersOfStretches(t *testing.T) {
	w := newWorld()
	extent := line.SetOf(line.Range{From: 1, To: 99}, line.Range{Letters: "AB", From: 5, To: 1e15 - 1})
	number := &model.Trait{Index: 2, Name: "Chassis number", Kind: model.Serial, Extents: []model.Extent{{Values: extent}}}
	built := &model.Trait{Index: 3, Name: "Built", Kind: model.Date, Extents: []model.Extent{{Values: line.SetOf(line.Range{From: -400, To: 400})}}}
	w.cat.Traits = append(w.cat.Traits, number, built)
	here := number.Cut(w.firstly, []line.Set{line.SetOf(line.Range{From: 41, To: 60})})
	days := built.Cut(w.firstly, nil)
	require.Len(t, here.Values, 4)
	l := New(w.cat, t.TempDir())
	where := model.Box{Traits: []model.TraitSet{here.Is(1, 2, 3)}, So: []model.TraitSet{days.Is(0)}}
	require.NoError(t, l.Add(&decide.Guide{Platform: w.firstly, Traits: []model.TraitSet{here.Is(0, 1, 2, 3, 4), days.Is(0, 1)}, Answers: []*decide.Answer{
		{Position: w.damper, Cases: []decide.Case{fitted(where, items(1, w.bolt))}}}}))
	got, err := l.Of(w.bolt)
	require.NoError(t, err)
	require.Len(t, got, 1)
	set := func(t *model.Trait, absent bool, ranges ...line.Range) model.TraitSet {
		out := model.TraitSet{Trait: t, Line: &model.Line{Ranges: ranges}}
		if absent {
			out.Values = t.Is(t.Absent()).Values
		}
		return out
	}
	letters, day := line.Range{Letters: "AB", From: 5, To: 1e15 - 1}, line.Range{From: -400, To: 400}
	assert.Equal(t, []model.Box{{Traits: []model.TraitSet{set(number, false, line.Range{From: 41, To: 99}, letters)}, So: []model.TraitSet{set(built, false, day)}}}, got[0].Where)
	assert.Equal(t, []model.TraitSet{set(number, true, line.Range{From: 1, To: 99}, letters), set(built, true, day)}, got[0].Has)
	require.NoError(t, l.Close())
}

// What does not fit in memory lies in a file, and is the same when it comes back.
func TestSpill(t *testing.T) {
	dir := t.TempDir()
	s := spill{dir: dir}
	type kept struct {
		at int64
		header
		text string
	}
	var all []kept
	for i := range 3000 {
		text := fmt.Sprintf("%0*d", 1+i%1200, i)
		h := header{int64(i) - 1, int32(i), int32(len(text))}
		at, err := s.add(h.before([]byte(text)))
		require.NoError(t, err)
		all = append(all, kept{at, h, text})
		require.Less(t, len(s.tail), inMemory)
	}
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, files, 1)
	for _, k := range all {
		h, text, err := s.read(k.at)
		require.NoError(t, err)
		require.Equal(t, k.header, h)
		require.Equal(t, k.text, string(text))
	}
	require.NoError(t, s.close())
	files, err = os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, files)
}

func TestSpillWithoutAPlaceForItsFile(t *testing.T) {
	s := spill{dir: t.TempDir() + "/missing"}
	_, err := s.add(make([]byte, inMemory))
	assert.Error(t, err)
}

// Too many to say stays so, whatever is added.
func TestHoldingsThatOverflow(t *testing.T) {
	bolt := &model.Part{Number: "B"}
	inner := &model.Part{Number: "I", Contents: []model.Component{{Part: bolt, Quantity: countAtMost}}}
	outer := &model.Part{Number: "O", Contents: []model.Component{{Part: inner, Quantity: 2}, {Part: bolt, Quantity: 1}}}
	list := holdings{}.all(outer)
	assert.Equal(t, []model.Item{{Part: inner, Quantity: 2}, {Part: bolt, Quantity: 0}}, list)
}

// A picture comes back from the file as it went in, that of a trait on a line as ranges.
func TestGlanceComesBack(t *testing.T) {
	w := newWorld()
	g := &decide.Guide{Platform: w.firstly, Configurations: big.NewInt(4), Traits: []model.TraitSet{w.levelling.Is(0, 1)},
		Vehicles: []model.Box{years(2001, 2002, w.levelling.Is(0)), years(2002, 2002, w.levelling.Is(1))},
		Finder:   decide.Finder{Order: []int{0, 2}},
		Answers: []*decide.Answer{{Position: w.damper, Exact: true, Configurations: big.NewInt(3), Cases: []decide.Case{
			fitted(years(2001, 2002, w.levelling.Is(0)), items(1, w.bag)), {Where: years(2002, 2002, w.levelling.Is(1)), Outcome: model.Gap}}}}}
	w.firstly.Years = []int{2001, 2002}
	l := New(w.cat, t.TempDir())
	require.NoError(t, l.Add(g))
	want := &Glance{By: w.levelling.Is(0, 1), Rows: []GlanceRow{
		{w.levelling.Is(0), []GlanceRun{{model.Span{From: 2001, To: 2002}, Here}}},
		{w.levelling.Is(1), []GlanceRun{{model.Span{From: 2001, To: 2001}, Nobody}, {model.Span{From: 2002, To: 2002}, Other}}}}}
	for _, p := range []*model.Part{w.bag, w.bolt} {
		got, err := l.Of(p)
		require.NoError(t, err)
		require.Len(t, got, 1)
		assert.Equal(t, want, got[0].Glance, p.Number)
	}
}
