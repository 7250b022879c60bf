package bind

import "strings"

// memo keeps what was read of a text, since columns repeat: a text is read once however
// many cells hold it.
type memo[T any] struct{ by map[string]T }

// maxKept bounds what a memo keeps: where every cell says something else, keeping it all
// would cost more than it saves.
const maxKept = 1 << 16

func (m *memo[T]) find(text string) (T, bool) {
	v, ok := m.by[text]
	return v, ok
}

// keep keeps a copy of the text, which may be a piece of a larger one.
func (m *memo[T]) keep(text string, v T) {
	if m.by == nil {
		m.by = map[string]T{}
	}
	if len(m.by) < maxKept {
		m.by[strings.Clone(text)] = v
	}
}
