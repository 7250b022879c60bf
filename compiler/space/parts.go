package space

// parts are all parts of a grid in which each axis is free or has one value: the label and
// the weight of each, and the least effort to find out what is in it where every answer
// may go its own way. They are laid out like cells, with one more value on each axis for
// free; so the parts of a part come before it.
type parts struct {
	*grid
	step  []int // of each axis
	mark  []int32
	total []uint128
	least []uint128
}

// newParts works all of them out, the smallest first.
func newParts(g *grid) *parts {
	p := &parts{grid: g, step: make([]int, len(g.axes))}
	all := 1
	for i := len(g.axes) - 1; i >= 0; i-- {
		p.step[i] = all
		all *= len(g.axes[i].values) + 1
	}
	p.mark, p.total, p.least = make([]int32, all), make([]uint128, all), make([]uint128, all)
	at := make([]int, len(g.axes)) // the value on each axis
	for part := range p.mark {
		p.put(part, at)
		for i := len(at) - 1; i >= 0; i-- {
			if at[i]++; at[i] <= len(g.axes[i].values) {
				break
			}
			at[i] = 0
		}
	}
	return p
}

// put works a part out from those that come before it.
func (p *parts) put(part int, at []int) {
	cell, free := 0, -1 // the free axis with the fewest values
	for i, v := range at {
		switch n := len(p.axes[i].values); {
		case v < n:
			cell += v * p.axes[i].step
		case free < 0 || n < len(p.axes[free].values):
			free = i
		}
	}
	if free < 0 {
		p.mark[part], p.total[part] = p.labels[cell], p.weight[cell]
		return
	}
	mark := nowhere
	for in := part - len(p.axes[free].values)*p.step[free]; in < part; in += p.step[free] {
		mark = blend(mark, p.mark[in])
		p.total[part] = p.total[part].plus(p.total[in])
	}
	if p.mark[part] = mark; mark == mixed {
		p.least[part] = p.ask(part, at)
	}
}

// ask gives the effort of the best question about a part, and of what follows from it.
func (p *parts) ask(part int, at []int) uint128 {
	best, any := uint128{}, false
	for i, a := range p.axes {
		if at[i] < len(a.values) {
			continue
		}
		effort, _ := p.total[part].times(a.effort)
		for in := part - len(a.values)*p.step[i]; in < part; in += p.step[i] {
			if p.mark[in] == mixed {
				effort = effort.plus(p.least[in])
			}
		}
		if !any || effort.less(best) {
			best, any = effort, true
		}
	}
	return best
}

// blend is the label of two parts together.
func blend(a, b int32) int32 {
	switch {
	case a == b, b == nowhere:
		return a
	case a == nowhere:
		return b
	}
	return mixed
}
