package space

import (
	"math/bits"
	"slices"
)

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
	free  []uint16 // the axes that are free, as bits
}

// fit works all parts of a grid out, in the memory of an earlier one.
func (p *parts) fit(g *grid) *parts {
	p.grid, p.step = g, make([]int, len(g.axes))
	all := 1
	for i := len(g.axes) - 1; i >= 0; i-- {
		p.step[i] = all
		all *= len(g.axes[i].values) + 1
	}
	p.mark, p.free = slices.Grow(p.mark[:0], all)[:all], slices.Grow(p.free[:0], all)[:all]
	p.total, p.least = slices.Grow(p.total[:0], all)[:all], slices.Grow(p.least[:0], all)[:all]
	p.open()
	p.gather(0, 0, 0)
	return p
}

// open notes which axes are free in each part: axis by axis, from the last, a copy for each
// value and one for free.
func (p *parts) open() {
	p.free[0] = 0
	for i := len(p.axes) - 1; i >= 0; i-- {
		step, n := p.step[i], len(p.axes[i].values)
		for v := 1; v <= n; v++ {
			copy(p.free[v*step:(v+1)*step], p.free[:step])
		}
		for k := n * step; k < (n+1)*step; k++ {
			p.free[k] |= 1 << i
		}
	}
}

// gather works out the parts that have the values of part and cell on the axes before one,
// and anything on the others.
func (p *parts) gather(axis, part, cell int) {
	if axis == len(p.axes) {
		p.mark[part], p.total[part], p.least[part] = p.labels[cell], p.weight[cell], uint128{}
		return
	}
	step, n := p.step[axis], len(p.axes[axis].values)
	for v := range n {
		p.gather(axis+1, part+v*step, cell+v*p.axes[axis].step)
	}
	from := part + n*step
	mark, total := p.mark[from:from+step], p.total[from:from+step]
	copy(mark, p.mark[part:])
	copy(total, p.total[part:])
	for in := part + step; in < from; in += step {
		for k, m := range p.mark[in : in+step] {
			mark[k] = blend(mark[k], m)
		}
		for k, w := range p.total[in : in+step] {
			total[k] = total[k].plus(w)
		}
	}
	for k, m := range mark {
		p.least[from+k] = uint128{}
		if m == mixed {
			p.least[from+k] = p.ask(from + k)
		}
	}
}

// ask gives the effort of the best question about a part, and of what follows from it.
func (p *parts) ask(part int) uint128 {
	best, any := uint128{}, false
	for free := p.free[part]; free != 0; free &= free - 1 {
		i := bits.TrailingZeros16(free)
		effort, _ := p.total[part].times(p.axes[i].effort)
		for in := part - len(p.axes[i].values)*p.step[i]; in < part; in += p.step[i] {
			effort = effort.plus(p.least[in]) // nothing where it is not mixed
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
