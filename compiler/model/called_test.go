package model_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/model"
)

func TestNamesOnAPlatform(t *testing.T) {
	h7, c4 := &model.Platform{Name: "H7"}, &model.Platform{Name: "C4"}
	called := []model.Called{{Name: "soft"}, {Name: "bellows", Platform: h7}, {Name: "soft", Platform: c4}, {Name: "bags", Platform: c4}}
	assert.Equal(t, []string{"soft", "bellows"}, model.Names(called, h7))
	assert.Equal(t, []string{"soft", "bags"}, model.Names(called, c4))
	assert.Equal(t, []string{"soft", "bellows", "bags"}, model.Names(called, nil), "nil is all of them")
	assert.Nil(t, model.Names(nil, h7))
	assert.Equal(t, called[:1], model.Everywhere(called))
}

// What replaces a part is followed to its ends, each part once, also around a circle.
func TestReplaced(t *testing.T) {
	part := func(number string) *model.Part { return &model.Part{Number: number} }
	by := func(p *model.Part, alternatives ...*model.Part) {
		p.ReplacedBy = &model.Fits{}
		for _, a := range alternatives {
			p.ReplacedBy.Alternatives = append(p.ReplacedBy.Alternatives, model.Alternative{{Part: a, Quantity: 1}})
		}
	}
	a, b, c, d := part("A"), part("B"), part("C"), part("D")
	by(a, b, c)
	by(b, d)
	by(c, d)
	steps, ends := a.Replaced()
	assert.Equal(t, []*model.Part{a, b, c}, steps)
	assert.Equal(t, []*model.Part{d}, ends, "two ways lead there, and it is told once")
	steps, ends = d.Replaced()
	assert.Nil(t, steps, "nothing takes its place")
	assert.Nil(t, ends)
	e, f, g := part("E"), part("F"), part("G")
	by(e, d, f)
	by(f, g)
	_, ends = e.Replaced()
	assert.Equal(t, []*model.Part{d, g}, ends, "one way is longer than the other")
	by(d, a)
	steps, ends = b.Replaced()
	assert.Equal(t, []*model.Part{b, d, a, c}, steps)
	assert.Nil(t, ends, "a circle has no end")
}

// A row about a family is also about a kit that holds a part of it.
func TestComplaintIsAboutAPart(t *testing.T) {
	damper := &model.Part{Number: "D", Family: "Damper"}
	kit := &model.Part{Number: "K", Contents: []model.Component{{Part: damper, Quantity: 2}}}
	bolts := &model.Part{Number: "B", Family: "Bolts", Contents: []model.Component{{Part: &model.Part{Family: "Bolt"}, Quantity: 2}}}
	about := func(family string) (out []string) {
		c := &model.Complaint{Family: family}
		for _, p := range []*model.Part{damper, kit, bolts} {
			if c.About(p) {
				out = append(out, p.Number)
			}
		}
		return out
	}
	assert.Equal(t, []string{"D", "K"}, about("damper"))
	assert.Equal(t, []string{"B"}, about("Bolts"))
	assert.Equal(t, []string{"D", "K", "B"}, about(""), "a row without a family is about all")
	assert.Empty(t, about("Spring"))
}
