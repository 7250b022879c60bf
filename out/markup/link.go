package markup

import "ferrule/schema"

// Link gives the books, each with a sheet of the names that it refers to and another
// of the books declares, so that they can be picked there too: a spreadsheet program
// has no lists from other workbooks. A book that needs none is given unchanged.
func Link(books []Book) []Book {
	all := gather(books)
	out := make([]Book, len(books))
	for i, b := range books {
		out[i] = b
		if lists := all.foreign(&b); len(lists) > 0 {
			out[i].Sheets = append(append([]Sheet(nil), b.Sheets...), listsOf(lists))
		}
	}
	return out
}

// foreign gives the lists that the book's columns offer and another book declares,
// in the order of the columns that need them.
func (n *names) foreign(b *Book) []*list {
	var out []*list
	seen := map[string]bool{}
	need := func(l *list) {
		if l.book != b.Name && !seen[l.heading] {
			seen[l.heading] = true
			out = append(out, l)
		}
	}
	for i := range b.Sheets {
		s := &b.Sheets[i]
		for _, h := range s.headings() {
			if c, ok := n.choice(kindOf(s.Name), h); ok && c.offer != nil {
				need(c.offer)
			}
			// A wide fitment sheet's columns are known by the positions' names.
			if kindOf(s.Name) == schema.Fitment && n.position(h) {
				need(&n.positions)
			}
		}
	}
	return out
}

func listsOf(lists []*list) Sheet {
	s := Sheet{Name: listSheet, Rows: [][]Cell{make([]Cell, len(lists))}}
	for col, l := range lists {
		s.Rows[0][col] = Words(l.heading)
		for i, name := range l.names {
			for len(s.Rows) < i+2 {
				s.Rows = append(s.Rows, make([]Cell, len(lists)))
			}
			s.Rows[i+1][col] = Words(name)
		}
	}
	return s
}
