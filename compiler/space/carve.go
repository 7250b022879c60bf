package space

import "math/big"

// carve splits care into disjoint boxes of one class each. It keeps a few boxes of
// each class, grown as far as neither another class nor a box already taken is met,
// takes the largest of all, and grows anew those that it cuts.
func (s *Space) carve(classes []Region, care Region) []Cell {
	c := carver{coverer: coverer{s: s, orders: orders(len(s.sizes))}, open: care}
	for k, r := range classes {
		c.left = append(c.left, r)
		c.propose(k)
	}
	var cells []Cell
	for last := s.walked + walkedPerNode*s.budget; len(c.pieces) > 0; {
		if s.walked > last {
			panic(spent{s})
		}
		best := 0
		for i, p := range c.pieces {
			if p.size.Cmp(c.pieces[best].size) > 0 {
				best = i
			}
		}
		p := c.pieces[best]
		cells = append(cells, Cell{p.box, p.class})
		c.take(p)
	}
	return cells
}

type carver struct {
	coverer
	open, taken Region
	left        []Region // of each class
	pieces      []piece
}

// piece is a box that may be taken next.
type piece struct {
	class int
	box   Box
	size  *big.Int // configurations of the class in it
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
	left := c.left[class]
	c.bad = c.s.Union(c.s.Minus(c.open, left), c.taken)
	b := c.best(within)
	return piece{class, b, c.s.CountIn(left, b)}
}

// take removes the box of p from what is open.
func (c *carver) take(p piece) {
	r := c.s.Box(p.box)
	c.taken, c.open = c.s.Union(c.taken, r), c.s.Minus(c.open, r)
	c.left[p.class] = c.s.Minus(c.left[p.class], r)
	old := c.pieces
	c.pieces = c.pieces[len(c.pieces):]
	has := make([]bool, len(c.left))
	for _, q := range old {
		if q.box.Meets(p.box) {
			within := c.s.Intersect(c.left[q.class], c.s.Box(q.box))
			if within == Empty {
				continue
			}
			q = c.piece(q.class, within)
		}
		has[q.class] = true
		c.pieces = append(c.pieces, q)
	}
	for k, left := range c.left {
		if left != Empty && !has[k] {
			c.propose(k)
		}
	}
}
