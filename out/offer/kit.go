package offer

import "ferrule/compiler/model"

// holdings remembers what each kit holds, kits in it opened and quantities added up,
// so that kits of kits of kits cost no more than they are long.
type holdings map[*model.Part][]model.Item

// holdingsOf opens every kit of a catalogue.
func holdingsOf(cat *model.Catalogue) holdings {
	h := holdings{}
	for _, p := range cat.Parts {
		h.all(p)
	}
	return h
}

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
		sum := list[i].Quantity + n
		if n == 0 || list[i].Quantity == 0 || sum > countAtMost {
			sum = 0
		}
		list[i].Quantity = sum
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
