package model

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/line"
	"ferrule/compiler/space"
)

func TestYearSet(t *testing.T) {
	p := &Platform{Years: []int{2003, 2004, 2008}}
	for _, c := range []struct {
		years *Years
		want  space.Set
	}{
		{nil, space.SetOf(0, 1, 2)},
		{&Years{Spans: []Span{{2004, LastYear}}}, space.SetOf(1, 2)},
		{&Years{Spans: []Span{{2004, 2007}}}, space.SetOf(1)},
		{&Years{Spans: []Span{{2004, 2007}}, Not: true}, space.SetOf(0, 2)},
		{&Years{Spans: []Span{{2005, 2007}}}, space.SetOf()},
	} {
		assert.True(t, c.want.Equal(p.YearSet(c.years)), "%v", c.years)
	}
}

// TestWeight counts years times values, and values on a line by their numbers.
func TestWeight(t *testing.T) {
	long, short := &Platform{Years: []int{2003, 2004, 2008}}, &Platform{Years: []int{2008}}
	lift := trait("Lift axle", "Pusher", "Tag")
	v := &Vehicles{When: When{Years: &Years{Spans: []Span{{2004, LastYear}}}, Traits: []TraitSet{{Trait: lift, Values: space.SetOf(0, 1)}}}}
	assert.Equal(t, "4", v.Weight(long).String())
	assert.Equal(t, "2", v.Weight(short).String())

	number := &Trait{Index: 1, Kind: Serial, Extents: []Extent{
		{Values: line.SetOf(line.Range{From: 1, To: 1000})}, {Platform: short, Values: line.SetOf(line.Range{Letters: "A", From: 5, To: 7})}}}
	v.When.Traits = append(v.When.Traits, TraitSet{Trait: number, Line: &Line{Ranges: line.SetOf(line.Range{From: 901, To: 5000}, line.Range{Letters: "A", From: 7, To: 9})}})
	assert.Equal(t, "400", v.Weight(long).String(), "901 to 1000")
	assert.Equal(t, "2", v.Weight(short).String(), "A7")
	v.When.Traits[1].Values = space.SetOf(number.Absent())
	assert.Equal(t, "404", v.Weight(long).String(), "and those without a number, as one")
	v.When.Traits[1].Line.Not = true
	assert.Equal(t, "3604", v.Weight(long).String(), "1 to 900, or none")
}
