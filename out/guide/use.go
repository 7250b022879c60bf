package guide

import (
	"ferrule/compiler/decide"
	"ferrule/compiler/model"
)

// use is a place that a part is offered for, by itself or in a kit.
type use struct {
	guide  *decide.Guide
	answer *decide.Answer
	of     *decide.Case
	choice int         // index into the case's alternatives
	kit    *model.Part // nil: by itself
	count  int         // 0: too many to say
}

// usesOf lists the settled cases that offer each part, in the order of the guides.
func usesOf(guides []*decide.Guide) map[*model.Part][]use {
	uses := map[*model.Part][]use{}
	in := holdings{}
	for _, g := range guides {
		for _, a := range g.Answers {
			for i := range a.Cases {
				c := &a.Cases[i]
				if c.Outcome != model.Fitted || c.Unsettled {
					continue
				}
				for n, alternative := range c.Alternatives {
					for _, it := range alternative {
						u := use{guide: g, answer: a, of: c, choice: n, count: it.Quantity}
						uses[it.Part] = append(uses[it.Part], u)
						u.kit = it.Part
						for _, h := range in.all(it.Part) {
							u.count = product(it.Quantity, h.Quantity)
							uses[h.Part] = append(uses[h.Part], u)
						}
					}
				}
			}
		}
	}
	return uses
}

// holdings remembers what each kit holds, kits in it opened and quantities added up,
// so that kits of kits of kits cost no more than they are long.
type holdings map[*model.Part][]model.Item

func (h holdings) all(kit *model.Part) []model.Item {
	if list, ok := h[kit]; ok {
		return list
	}
	h[kit] = nil // a kit that leads back to itself is not opened again
	var list []model.Item
	at := map[*model.Part]int{}
	add := func(p *model.Part, n int) {
		i, ok := at[p]
		if !ok {
			at[p] = len(list)
			list = append(list, model.Item{Part: p, Quantity: n})
			return
		}
		if list[i].Quantity += n; n == 0 || list[i].Quantity > countAtMost {
			list[i].Quantity = 0
		}
	}
	for _, c := range kit.Contents {
		add(c.Part, c.Quantity)
		for _, inner := range h.all(c.Part) {
			add(inner.Part, product(c.Quantity, inner.Quantity))
		}
	}
	h[kit] = list
	return list
}

// countAtMost is the greatest number of parts that is told; kits of kits can multiply
// beyond what a number holds.
const countAtMost = 1_000_000

func product(a, b int) int {
	if a <= 0 || b <= 0 || a > countAtMost || b > countAtMost/a {
		return 0
	}
	return a * b
}
