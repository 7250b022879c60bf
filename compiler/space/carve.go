package space

import (
	"math/big"
	"slices"
)

// carve splits care into disjoint boxes of one class each. It keeps a few boxes of
// each class, grown as far as neither another class nor a box already taken is met,
// takes the largest of all, and grows anew those that were cut.
func (s *Space) carve(classes []Region, care Region) []Cell {
	c := carver{coverer: coverer{s: s, orders: orders(len(s.sizes))}, left: slices.Clone(classes)}
	for _, r := range classes {
		c.others = append(c.others, s.Minus(care, r))
	}
	c.enclose(classes, nil, roomToTake)
	for k := range classes {
		c.propose(k)
	}
	mark := s.Mark()
	var cells []Cell
	for last := min(s.walked+carveWalk*s.budget, s.end); len(c.pieces) > 0; {
		if s.walked > last {
			panic(spent{s})
		}
		best := 0
		for i, p := range c.pieces {
			if p.size.Cmp(c.pieces[best].size) > 0 {
				best = i
			}
		}
		if p := c.pieces[best]; p.stale {
			c.renew(best)
		} else {
			cells = append(cells, Cell{p.box, p.class})
			c.take(p)
			if len(cells) == c.room {
				c.enclose(classes, cells, 2*c.room)
			}
			if 2*(s.used-mark.used) > s.budget-mark.used {
				s.Release(mark)
				c.resume(classes, cells)
			}
		}
	}
	return cells
}

type carver struct {
	coverer
	taken  Region
	left   []Region // of each class
	others []Region // of care, for each class
	pieces []piece
	ends   []int // of the paths of each class in the fence, behind which the taken boxes stand
	room   int   // for those
}

// roomToTake is how many boxes find room in a fence before it is put up anew.
const roomToTake = 64

// enclose puts up a fence around all classes and the boxes that are taken.
func (c *carver) enclose(classes []Region, taken []Cell, room int) {
	c.ends, c.room = c.ends[:0], room
	if c.fenced = c.fence.enclose(c.s, room, classes...); !c.fenced {
		return
	}
	end := 0
	for _, r := range classes {
		c.s.memo.begin(len(c.s.nodes))
		end += c.s.countPaths(r)
		c.ends = append(c.ends, end)
	}
	for _, x := range taken {
		c.fence.put(x.Box)
	}
}

// but leaves a gap in the fence for a class.
func (c *carver) but(class int) {
	from := 0
	if class > 0 {
		from = c.ends[class-1]
	}
	clear(c.fence.aside)
	raise(c.fence.aside, from, c.ends[class])
}

// piece is a box that may be taken next.
type piece struct {
	class int
	box   Box
	size  *big.Int // configurations of the class in it, when it was grown
	stale bool     // cut since then
}

// proposals is how many boxes of a class are kept at first.
const proposals = 8

// propose grows boxes for what is left of a class.
func (c *carver) propose(class int) {
	left := c.left[class]
	for range proposals {
		if left == Empty {
			return
		}
		p := c.piece(class, left)
		c.pieces = append(c.pieces, p)
		left = c.s.Minus(left, c.s.Box(p.box))
	}
}

// piece grows a box around the first configuration of within.
func (c *carver) piece(class int, within Region) piece {
	c.bad = append(c.bad[:0], c.others[class], c.taken)
	if c.fenced {
		c.but(class)
	}
	b := c.best(within)
	return piece{class: class, box: b, size: c.s.CountIn(c.left[class], b)}
}

// take removes the box of p from what is open. Pieces that it cuts are grown anew when
// it is their turn by the size they had.
func (c *carver) take(p piece) {
	r := c.s.Box(p.box)
	c.taken = c.s.Union(c.taken, r)
	if c.fenced {
		c.fence.put(p.box)
	}
	c.left[p.class] = c.s.Minus(c.left[p.class], r)
	for i := range c.pieces {
		q := &c.pieces[i]
		q.stale = q.stale || q.box.Meets(p.box)
	}
}

// resume works out again what cells leave open, when the steps to it are forgotten.
func (c *carver) resume(classes []Region, cells []Cell) {
	all := make([]Box, len(cells))
	of := make([][]Box, len(classes))
	for i, x := range cells {
		all[i], of[x.Class] = x.Box, append(of[x.Class], x.Box)
	}
	c.taken = c.s.UnionBoxes(all)
	for k, r := range classes {
		c.left[k] = c.s.Minus(r, c.s.UnionBoxes(of[k]))
	}
}

// renew grows a piece anew in what is left of it; where nothing is, it goes, and the
// class gets new ones when it was the last.
func (c *carver) renew(i int) {
	q := c.pieces[i]
	if within := c.s.Intersect(c.left[q.class], c.s.Box(q.box)); within != Empty {
		c.pieces[i] = c.piece(q.class, within)
		return
	}
	c.pieces = slices.Delete(c.pieces, i, i+1)
	if !slices.ContainsFunc(c.pieces, func(o piece) bool { return o.class == q.class }) {
		c.propose(q.class)
	}
}
