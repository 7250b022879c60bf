package bind

// pool gives out pieces of larger arrays: a catalogue holds millions of small things
// that live as long as it does, and one by one they would keep the garbage collector
// busier than the binder.
type pool[T any] struct{ free []T }

// shelfSize is how many things are made at once.
const shelfSize = 512

// take gives n things that nobody else has, with no room to grow.
func (s *pool[T]) take(n int) []T {
	if len(s.free) < n {
		s.free = make([]T, max(n, shelfSize))
	}
	out := s.free[:n:n]
	s.free = s.free[n:]
	return out
}

// one gives one thing.
func (s *pool[T]) one() *T { return &s.take(1)[0] }
