package offer

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/model"
)

func TestNumbers(t *testing.T) {
	a := &model.Part{Number: "D-20", Known: true}
	b := &model.Part{Number: "D.20", Known: true}
	c := &model.Part{Number: "B-1", Known: true}
	unknown := &model.Part{Number: "U-1"}
	ref := &model.Reference{Number: "d-20", Part: c}
	n := NewNumbers(&model.Catalogue{Parts: []*model.Part{a, b, c, unknown}, References: []*model.Reference{ref,
		{Number: "---", Part: a}, {Number: "77", Part: unknown}, {Number: "78"}}})
	for number, want := range map[string]Asked{
		"D-20": {Number: "D-20", Parts: []*model.Part{a}, References: []*model.Reference{ref}},
		"d.20": {Number: "d.20", Parts: []*model.Part{b}},
		"D20":  {Number: "D20", Parts: []*model.Part{a, b}, References: []*model.Reference{ref}, Loosely: true},
		"B/1":  {Number: "B/1", Parts: []*model.Part{c}, Loosely: true},
		"D-2l": {Number: "D-2l", Nearest: "D-20"},
		"U-1":  {Number: "U-1", Nearest: "B-1"},
		"77":   {Number: "77"},
		"+++":  {Number: "+++"},
		"":     {},
	} {
		assert.Equal(t, want, n.Find(number), number)
	}
	d20 := n.Find("D20")
	assert.Equal(t, []*model.Part{a, b, c}, d20.All())
}

// What replaces a part is followed to its end, also round a circle.
func TestReplaced(t *testing.T) {
	first, second, third, other := &model.Part{Number: "1"}, &model.Part{Number: "2"}, &model.Part{Number: "3"}, &model.Part{Number: "4"}
	by := func(parts ...*model.Part) *model.Fits {
		f := &model.Fits{Outcome: model.Fitted}
		for _, p := range parts {
			f.Alternatives = append(f.Alternatives, model.Alternative{{Part: p}})
		}
		return f
	}
	first.ReplacedBy, second.ReplacedBy = by(second, other), by(third, first)
	steps, ends := first.Replaced()
	assert.Equal(t, []*model.Part{first, second}, steps)
	assert.Equal(t, []*model.Part{other, third}, ends)
	steps, ends = third.Replaced()
	assert.Empty(t, steps)
	assert.Empty(t, ends)
}
