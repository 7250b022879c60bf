// Package memo keeps what was read of a text, since columns repeat: a text is read once
// however many cells hold it.
package memo

import "strings"

// most bounds how many texts are kept: where every cell says something else, keeping it all
// would cost more than it saves.
const most = 1 << 16

// Texts keeps values by text. The zero value keeps none yet.
type Texts[T any] struct{ by map[string]T }

// Find gives what was kept of a text.
func (m *Texts[T]) Find(text string) (T, bool) {
	v, ok := m.by[text]
	return v, ok
}

// Keep keeps a copy of the text, which may be a piece of a larger one.
func (m *Texts[T]) Keep(text string, v T) {
	if m.by == nil {
		m.by = map[string]T{}
	}
	if len(m.by) < most {
		m.by[strings.Clone(text)] = v
	}
}

// Once gives what make makes of a text, which is made the first time.
func (m *Texts[T]) Once(text string, make func() T) T {
	v, ok := m.by[text]
	if !ok {
		v = make()
		m.Keep(text, v)
	}
	return v
}
