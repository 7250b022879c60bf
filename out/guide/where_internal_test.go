package guide

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

func traitOf(values int) *model.Trait {
	t := &model.Trait{Name: "Trait"}
	for v := range values {
		t.Values = append(t.Values, &model.Value{Name: fmt.Sprint("value ", v)})
	}
	return t
}

func setOf(values []int, holds func(int) bool) space.Set {
	s := space.Set{0}
	for _, v := range values {
		if holds(v) {
			s[0] |= 1 << v
		}
	}
	return s
}

// holds reads a term as a person does: does a value meet it?
func (t term) holds(value int) bool {
	if value == t.Trait.Absent() {
		return t.Absent
	}
	if t.Every() {
		return true
	}
	return slices.Contains(t.Names, t.Trait.Values[value].Name) != t.But
}

// What a page says of a box is true of exactly those values of the platform that the
// box holds, and nothing is said where that is all of them.
func TestTermsSayWhatTheBoxHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := traitOf(rapid.IntRange(1, 7).Draw(t, "values"))
		every := make([]int, len(tr.Values)+1)
		for i := range every {
			every[i] = i
		}
		bits := rapid.IntRange(0, 1<<len(every)-1)
		occur, in := bits.Draw(t, "occur"), bits.Draw(t, "in")
		has := english().occurringOf([]model.TraitSet{{Trait: tr, Values: setOf(every, func(v int) bool { return occur>>v&1 == 1 })}})
		box := model.Box{Traits: []model.TraitSet{{Trait: tr, Values: setOf(every, func(v int) bool { return in>>v&1 == 1 })}}}
		w := has.where(box)
		if occur&in == 0 { // no vehicle is in it, so what it says does not matter
			return
		}
		require.Equal(t, occur&^in == 0, w.All())
		for _, v := range every {
			if occur>>v&1 == 1 && !w.All() {
				require.Equal(t, in>>v&1 == 1, w.Terms[0].holds(v), "%v: value %d", w.Terms[0], v)
			}
		}
	})
}

func TestYearWords(t *testing.T) {
	for want, years := range map[string][]int{
		"": nil, "2009": {2009}, "2004 to 2005": {2004, 2005}, "2004 to 2006, 2008, 2010 to 2011": {2004, 2005, 2006, 2008, 2010, 2011},
	} {
		assert.Equal(t, strings.ReplaceAll(want, " to ", "\u00a0to\u00a0"), english().yearWords(years))
	}
}

// One box that holds every vehicle makes the others needless.
func TestWheresOfAll(t *testing.T) {
	o := english().occurringOf(nil)
	assert.Nil(t, o.wheres(nil))
	assert.Nil(t, o.wheres([]model.Box{{Years: []model.Span{{From: 2004, To: 2004}}}, {}}))
	assert.Equal(t, []where{{Years: "2004"}}, o.wheres([]model.Box{{Years: []model.Span{{From: 2004, To: 2004}}}}))
}

// english is the edition of a catalogue that names no languages.
func english() *edition { return editions(&model.Catalogue{}, Options{})[0] }
