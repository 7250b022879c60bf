package space

import "slices"

// Cell is a box of a partition with the index of its class.
type Cell struct {
	Box   Box
	Class int
}

// Partition splits care into boxes that no two share a configuration (not even one
// outside care), each holding configurations of one class only; classes are disjoint
// and their union is care. Boxes are few and restrict few traits. The result is in
// the order of each box's first configuration in care.
//
// Two ways are tried, each with bounded effort, and the shorter result is kept: boxes
// carved out one after the other, the largest first; and, where that is more than one
// box for each class and there are not too many, the leaves of a decision tree, split
// at each node by the trait that leads to the fewest leaves.
func (s *Space) Partition(classes []Region, care Region) []Cell {
	defer s.tidy(s.Mark())
	parts := make([]Region, len(classes))
	least := 0 // cells that there must be
	for i, r := range classes {
		parts[i] = s.Intersect(r, care)
		if parts[i] != Empty {
			least++
		}
	}
	cells := s.short(s.carve(parts, care))
	if len(cells) > least {
		if leaves := s.leaves(parts); leaves != nil && less(leaves, cells) {
			cells = leaves
		}
	}
	return s.sortCells(cells, care)
}

// leaves gives the cells of a decision tree, nil where it would take too much effort.
func (s *Space) leaves(parts []Region) []Cell {
	labelled := make([]Region, len(parts))
	for i, r := range parts {
		labelled[i] = s.label(r, i)
	}
	p := s.plan(s.fold(join, labelled))
	if p == nil {
		return nil
	}
	var out []Cell
	p.cells(s, nil, &out)
	return s.short(out)
}

// short makes cells fewer and shorter by what shows in the boxes alone.
func (s *Space) short(cells []Cell) []Cell {
	cells = s.joinCells(cells)
	freeTraits(cells)
	return cells
}

// less tells whether a is shorter to read than b.
func less(a, b []Cell) bool {
	if len(a) != len(b) {
		return len(a) < len(b)
	}
	n := 0
	for i := range a {
		n += a[i].Box.Conditions() - b[i].Box.Conditions()
	}
	return n < 0
}

// label gives the function that is label k in r and undefined elsewhere. Label k is
// the terminal -1-k.
func (s *Space) label(r Region, k int) Region {
	s.memo.begin(len(s.nodes))
	return s.relabel(r, Region(-1-k))
}

func (s *Space) relabel(r, label Region) Region {
	switch {
	case r == Empty:
		return Empty
	case r == Full:
		return label
	case s.memo.has(r):
		return s.memo.result[r]
	}
	return s.memo.put(r, s.rebuild(s.nodes[r], func(kid Region) Region { return s.relabel(kid, label) }))
}

// cells lists the leaves of a plan, which holds inside b.
func (p *plan) cells(s *Space, b Box, out *[]Cell) {
	if p.level < 0 {
		*out = append(*out, Cell{b, p.class})
		return
	}
	for _, g := range p.groups {
		in := b
		if g.values != nil {
			in = b.With(s.order[p.level], both(b.At(s.order[p.level]), g.values))
		}
		g.plan.cells(s, in, out)
	}
}

// joinCells joins boxes of one class that differ in the set of one trait only.
func (s *Space) joinCells(cells []Cell) []Cell {
	for again := true; again; {
		again = false
		for t := len(s.sizes) - 1; t >= 0; t-- {
			n := len(cells)
			cells = s.joinAlong(cells, t)
			again = again || len(cells) < n
		}
	}
	return cells
}

func (s *Space) joinAlong(cells []Cell, t int) []Cell {
	out := cells[:0]
	place := map[uint64][]int{} // of cells in out, by a hash of all but trait t
	for _, c := range cells {
		c.Box = c.Box.With(t, c.Box.At(t))
		key := mix(uint64(c.Class))
		for u := range s.sizes {
			if set := c.Box.At(u); set != nil && u != t {
				key = mix(key ^ hashSet(set) + uint64(u))
			}
		}
		i := slices.IndexFunc(place[key], func(i int) bool {
			return out[i].Class == c.Class && out[i].Box.With(t, nil).Equal(c.Box.With(t, nil))
		})
		if i < 0 {
			place[key] = append(place[key], len(out))
			out = append(out, c)
			continue
		}
		into := &out[place[key][i]]
		set := into.Box[t].Or(c.Box[t])
		if set.Len() == s.sizes[t] {
			set = nil
		}
		into.Box = into.Box.With(t, set)
	}
	return out
}

// freeAtMost is the number of cells up to which freeTraits compares all with all.
const freeAtMost = 500

// freeTraits lifts restrictions that keep no two boxes apart.
func freeTraits(cells []Cell) {
	if len(cells) > freeAtMost {
		return
	}
	for i := range cells {
		for t := len(cells[i].Box) - 1; t >= 0; t-- {
			if cells[i].Box[t] == nil {
				continue
			}
			wider := cells[i].Box.With(t, nil)
			apart := true
			for j := range cells {
				apart = apart && (i == j || !wider.Meets(cells[j].Box))
			}
			if apart {
				cells[i].Box = wider
			}
		}
	}
}

// sortCells sorts by the first configuration in care.
func (s *Space) sortCells(cells []Cell, care Region) []Cell {
	type placed struct {
		Cell
		first []int
	}
	all := make([]placed, len(cells))
	for i, c := range cells {
		all[i].Cell = c
		all[i].first, _ = s.FirstIn(care, c.Box)
	}
	slices.SortFunc(all, func(a, b placed) int { return slices.Compare(a.first, b.first) })
	for i, c := range all {
		cells[i] = c.Cell
	}
	return cells
}
