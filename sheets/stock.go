package sheets

// stock is the shared texts, on pages that are never moved: a slice that grows would need
// room for all of them twice.
type stock struct {
	pages [][]words
	n     int
	kept  int64 // bytes of memory, about
	most  int64 // that may be kept
}

const (
	pageBits  = 12
	pageSize  = 1 << pageBits
	wordsSize = 24 // bytes of words without its text
)

// add puts a text behind the others.
func (s *stock) add(w words) {
	if s.n&(pageSize-1) == 0 {
		s.pages = append(s.pages, nil)
	}
	last := &s.pages[len(s.pages)-1]
	*last = append(*last, w)
	s.n++
	s.kept += wordsSize + int64(len(w.text))
}

// full tells whether more is kept than may be.
func (s *stock) full() bool { return s.kept > s.most }

// at gives the text of a number below n.
func (s *stock) at(i int) *words { return &s.pages[i>>pageBits][i&(pageSize-1)] }
