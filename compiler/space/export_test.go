package space

// Same tells whether a region's node would be taken for one with these edges, whatever
// their hashes are.
func (s *Space) Same(r Region, level int32, below []Region, sets []uint64) bool {
	return s.same(s.nodes[r], level, below, sets)
}

// Carved is Partition without its second way.
func (s *Space) Carved(classes []Region, care Region) []Cell {
	parts := make([]Region, len(classes))
	for i, r := range classes {
		parts[i] = s.Intersect(r, care)
	}
	return s.sortCells(s.short(s.carve(parts, care)), care)
}

// Grown gives a box grown around the first configuration of goal in each order, by paths or
// by nodes.
func (s *Space) Grown(goal Region, bad []Region, byPaths bool) (out []Box) {
	c := coverer{s: s, goal: goal, bad: bad, orders: orders(len(s.sizes))}
	if byPaths && !c.fence.enclose(s, 0, bad...) {
		panic("space: too many paths")
	}
	c.fenced = byPaths
	seed, _ := s.First(goal)
	for _, order := range c.orders {
		out = append(out, c.grow(Point(seed), order))
	}
	return out
}

// FirstPath is First by paths.
func (s *Space) FirstPath(r Region) []int {
	var p paths
	if !p.set(s, 0, r) {
		panic("space: too many paths")
	}
	return p.first()
}

// FenceMeets tells by paths whether a box holds anything of some regions.
func (s *Space) FenceMeets(bad []Region, b Box) bool {
	var f fence
	if !f.enclose(s, 0, bad...) {
		panic("space: too many paths")
	}
	return f.meets(b)
}
