package cell

// Set is a set of cells of any sheets. Cells that are near one another share a page, so
// that a set of a million cells of a table takes little more than a bit for each. The zero
// value is empty. It is for one goroutine, also where it is only looked at.
type Set struct {
	pages map[*Sheet]map[uint32]*page
	// where the last one was looked for: cells come in order
	sheet *Sheet
	of    map[uint32]*page
	key   uint32
	at    *page
}

// page holds cells of 64 rows and 64 columns.
type page [64]uint64

// Add puts a cell into the set.
func (s *Set) Add(p Place) {
	if s.pages == nil {
		s.pages = map[*Sheet]map[uint32]*page{}
	}
	in, bit := s.find(p)
	if in == nil {
		if s.of == nil {
			s.of = map[uint32]*page{}
			s.pages[p.Sheet] = s.of
		}
		in = new(page)
		s.of[s.key], s.at = in, in
	}
	in[p.Pos.Row&63] |= bit
}

// Has tells whether a cell is in the set.
func (s *Set) Has(p Place) bool {
	in, bit := s.find(p)
	return in != nil && in[p.Pos.Row&63]&bit != 0
}

// find gives the page of a cell, nil for none, and the cell's bit in its row.
func (s *Set) find(p Place) (*page, uint64) {
	key, bit := uint32(p.Pos.Row>>6)<<9|uint32(p.Pos.Col>>6), uint64(1)<<(p.Pos.Col&63)
	if p.Sheet != s.sheet || s.of == nil {
		s.sheet, s.of, s.key = p.Sheet, s.pages[p.Sheet], key
		s.at = s.of[key]
	} else if key != s.key || s.at == nil {
		s.key, s.at = key, s.of[key]
	}
	return s.at, bit
}
