package model

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

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

// TestPerConfiguration holds that what is on the road is spread over all platforms of a row.
func TestPerConfiguration(t *testing.T) {
	long, short := &Platform{Years: []int{2003, 2004, 2008}}, &Platform{Years: []int{2008}}
	cat := &Catalogue{Platforms: []*Platform{long, short}}
	lift := trait("Lift axle", "Pusher", "Tag")
	v := &Vehicles{When: When{Years: &Years{Spans: []Span{{2004, LastYear}}}, Traits: []TraitSet{{lift, space.SetOf(0, 1)}}}}
	assert.Equal(t, "4", v.Configurations(long).String())
	assert.Equal(t, "2", v.Configurations(short).String())

	_, ok := v.PerConfiguration(cat)
	assert.False(t, ok, "the row says nothing")
	v.Road = Number{big.NewRat(90, 1)}
	per, ok := v.PerConfiguration(cat)
	assert.True(t, ok)
	assert.Equal(t, "15", per.RatString())
	v.When.Platforms = []*Platform{long}
	per, _ = v.PerConfiguration(cat)
	assert.Equal(t, "45/2", per.RatString())
	v.When.Years = &Years{Spans: []Span{{1990, 1991}}}
	_, ok = v.PerConfiguration(cat)
	assert.False(t, ok, "the row is about no vehicle")
}
