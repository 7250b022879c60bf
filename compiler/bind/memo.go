package bind

import (
	"strings"

	"ferrule/compiler/intake/table"
)

// memo keeps what was read of a text, since columns repeat: a text is read once however
// many cells hold it. Texts that cells of a workbook share are found by their number.
type memo[T any] struct {
	by     map[string]T
	file   string // the workbook that shared is about
	shared []kept[T]
}

type kept[T any] struct {
	value T
	ok    bool
}

// maxKept bounds what a memo keeps by text: where every cell says something else, keeping
// it all would cost more than it saves.
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

// of gives what a field says: what read makes of it, unless it is known. What read makes
// is kept if it says so.
func (m *memo[T]) of(t *table.Table, f *table.Field, read func() (v T, keep bool)) T {
	if f.Shared == 0 {
		v, _ := read()
		return v
	}
	if m.file != t.Sheet.File || len(m.shared) <= t.Texts {
		m.file, m.shared = t.Sheet.File, make([]kept[T], t.Texts+1)
	}
	k := &m.shared[f.Shared]
	if !k.ok {
		k.value, k.ok = read()
	}
	return k.value
}
