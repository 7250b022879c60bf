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
