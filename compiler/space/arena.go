package space

import "math/bits"

// node is a choice at one level: disjoint sets of values (edges), each with the
// region below it. Values in no edge lead to Empty.
type node struct {
	level int32
	n     int32  // edges
	kid   uint32 // where the regions below begin in arena.kids
	mask  uint32 // where the sets begin in arena.masks
	hash  uint32
}

// arena holds all nodes of a space, each different one once, found by an
// open-addressing table.
type arena struct {
	nodes []node
	kids  []Region
	masks []uint64
	table []uint64 // a power of two long; a region under its hash, 0 is a free place
	used  int      // nodes by the measure of the budget
	depth int32    // levels
}

const firstTable = 1 << 10

// wordsPerNode is how many words of sets the budget counts as one node.
const wordsPerNode = 16

func (a *arena) reset(levels int) {
	a.depth = int32(levels)
	end := node{level: a.depth}
	a.nodes = append(a.nodes[:0], end, end) // Empty and Full
	a.kids, a.masks, a.used = a.kids[:0], a.masks[:0], 0
	a.resize(firstTable)
}

// cut forgets all nodes since m.
func (a *arena) cut(m Mark) {
	a.nodes, a.kids, a.masks, a.used = a.nodes[:m.nodes], a.kids[:m.kids], a.masks[:m.masks], m.used
	size := firstTable
	for size < 2*len(a.nodes) {
		size *= 2
	}
	a.resize(size)
}

// resize makes the table n places long, in the memory it has where that is enough,
// and puts every node in.
func (a *arena) resize(n int) {
	if cap(a.table) < n {
		a.table = make([]uint64, n)
	}
	a.table = a.table[:n]
	clear(a.table)
	for r := Full + 1; int(r) < len(a.nodes); r++ {
		hash := a.nodes[r].hash
		i := hash & uint32(n-1)
		for a.table[i] != 0 {
			i = (i + 1) & uint32(n-1)
		}
		a.table[i] = uint64(hash)<<32 | uint64(r)
	}
}

// at is the level of r; terminals, among them the labels of Partition, which are
// negative, are below all levels.
func (a *arena) at(r Region) int32 {
	if r < 2 {
		return a.depth
	}
	return a.nodes[r].level
}

// below gives the regions under the edges of n.
func (a *arena) below(n node) []Region { return a.kids[n.kid : n.kid+uint32(n.n)] }

// set gives the values of edge i of n, whose masks have w words.
func (a *arena) set(n node, i, w int) Set {
	from := int(n.mask) + i*w
	return Set(a.masks[from : from+w : from+w])
}

// frame is a stack of edges: those of the node in hand on top. Edges to the same
// region are joined as they come.
type frame struct {
	kids  []Region
	masks []uint64
}

func (f *frame) cut(kids, masks int) { f.kids, f.masks = f.kids[:kids], f.masks[:masks] }

// add puts an edge of a trait of up to 64 values on a node begun at (kids, masks).
func (f *frame) add(kids, masks int, mask uint64, kid Region) {
	for i, k := range f.kids[kids:] {
		if k == kid {
			f.masks[masks+i] |= mask
			return
		}
	}
	f.kids, f.masks = append(f.kids, kid), append(f.masks, mask)
}

// slot gives the mask, of w words, of the edge to kid of a node begun at (kids,
// masks), for the caller to put values in.
func (f *frame) slot(kids, masks, w int, kid Region) []uint64 {
	for i, k := range f.kids[kids:] {
		if k == kid {
			return f.masks[masks+i*w : masks+(i+1)*w]
		}
	}
	f.kids = append(f.kids, kid)
	for range w {
		f.masks = append(f.masks, 0)
	}
	return f.masks[len(f.masks)-w:]
}

// seal takes the edges since (kids, masks) off the frame and gives their node.
func (s *Space) seal(level int32, kids, masks int) Region {
	ks, ms, w := s.frame.kids[kids:], s.frame.masks[masks:], s.words[level]
	if len(ks) == 0 {
		return Empty
	}
	r := ks[0]
	if len(ks) > 1 || !Set(ms).Equal(s.whole[level]) {
		sortEdges(ks, ms, w)
		r = s.find(level, ks, ms)
	}
	s.frame.cut(kids, masks)
	return r
}

// sortEdges sorts edges by their least value.
func sortEdges(ks []Region, ms []uint64, w int) {
	for i := 1; i < len(ks); i++ {
		for j := i; j > 0 && before(ms[j*w:(j+1)*w], ms[(j-1)*w:j*w]); j-- {
			ks[j], ks[j-1] = ks[j-1], ks[j]
			for k := range w {
				ms[j*w+k], ms[(j-1)*w+k] = ms[(j-1)*w+k], ms[j*w+k]
			}
		}
	}
}

// before tells whether the least value of x is less than that of y; they are disjoint.
func before(x, y []uint64) bool {
	for i := range x {
		if x[i]|y[i] != 0 {
			return bits.TrailingZeros64(x[i]) < bits.TrailingZeros64(y[i])
		}
	}
	return false
}

// find gives the node with these edges, a new one where there is none.
func (s *Space) find(level int32, ks []Region, ms []uint64) Region {
	h := uint64(level)*0x9e3779b97f4a7c15 + uint64(len(ks))
	for _, m := range ms {
		h = mix(h ^ m)
	}
	for _, k := range ks {
		h = mix(h ^ uint64(uint32(k)))
	}
	hash := uint32(h >> 32)
	i := hash & uint32(len(s.table)-1)
	for s.table[i] != 0 {
		if e := s.table[i]; uint32(e>>32) == hash && s.same(s.nodes[uint32(e)], level, ks, ms) {
			return Region(uint32(e))
		}
		i = (i + 1) & uint32(len(s.table)-1)
	}
	cost := 1 + (len(ms)-1)/wordsPerNode
	if s.used+cost > s.budget {
		panic(spent{s})
	}
	s.used += cost
	r := Region(len(s.nodes))
	s.nodes = append(s.nodes, node{level, int32(len(ks)), uint32(len(s.kids)), uint32(len(s.masks)), hash})
	s.kids, s.masks = append(s.kids, ks...), append(s.masks, ms...)
	s.table[i] = uint64(hash)<<32 | uint64(r)
	if 2*len(s.nodes) > len(s.table) {
		s.resize(2 * len(s.table))
	}
	return r
}

func (a *arena) same(n node, level int32, ks []Region, ms []uint64) bool {
	if n.level != level || int(n.n) != len(ks) {
		return false
	}
	for i, k := range a.below(n) {
		if k != ks[i] {
			return false
		}
	}
	for i, m := range ms {
		if a.masks[int(n.mask)+i] != m {
			return false
		}
	}
	return true
}

// mix spreads the bits of x over all 64.
func mix(x uint64) uint64 {
	hi, lo := bits.Mul64(x, 0x9fb21c651e98df25)
	return hi ^ lo ^ x>>32
}
