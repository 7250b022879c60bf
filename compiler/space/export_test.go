package space

// Carved is Partition without its second way.
func (s *Space) Carved(classes []Region, care Region) []Cell {
	parts := make([]Region, len(classes))
	for i, r := range classes {
		parts[i] = s.Intersect(r, care)
	}
	return s.sortCells(s.short(s.carve(parts, care)), care)
}
