package space

// spent is what a space panics with when its budget is used up; Try recovers it.
type spent struct{ space *Space }

func (spent) Error() string { return "space: node budget used up outside Try" }

// Try runs f; when f runs out of nodes it stops f and returns ErrBudget, with the
// regions made before f still valid (and the budget what it was before f). All
// methods that make regions panic with an internal value outside Try when the
// budget is used up, and Try is what recovers it. A test of the program holds
// that everything that may spend the budget is run by one.
func (s *Space) Try(f func()) (err error) {
	mark := s.Mark()
	defer func() {
		if p := recover(); p != nil {
			if e, ok := p.(spent); !ok || e.space != s {
				panic(p)
			}
			s.Release(mark)
			err = ErrBudget
		}
	}()
	f()
	return nil
}

// Mark is a moment in the life of a space.
type Mark struct {
	nodes, kids, masks, used int
	steps                    int
	frameKids, frameMasks    int
}

// Mark remembers which regions there are, for Release.
func (s *Space) Mark() Mark {
	return Mark{len(s.nodes), len(s.kids), len(s.masks), s.used, s.steps, len(s.frame.kids), len(s.frame.masks)}
}

// Release forgets the regions made since m and gives their budget back; those made
// before stay valid. Marks are released last first.
func (s *Space) Release(m Mark) {
	if m.nodes > len(s.nodes) {
		panic("space: mark of a later moment")
	}
	s.frame.cut(m.frameKids, m.frameMasks)
	s.steps = m.steps
	if m.nodes == len(s.nodes) {
		return
	}
	s.arena.cut(m)
	s.cache.reset()
	s.memo.forget()
	s.seen.forget()
	s.count.cut(m.nodes)
	s.part.forget()
}

// tidy releases what was made since m, where that is so much that the work is worth it.
func (s *Space) tidy(m Mark) {
	if made := len(s.nodes) - m.nodes; made > firstTable && made > m.nodes/4 {
		s.Release(m)
	}
}
