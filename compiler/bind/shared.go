package bind

import "ferrule/compiler/intake/table"

// shared keeps what was read of the texts that cells of one workbook share, by their number:
// a text is not even looked up again.
type shared[T any] struct {
	file string // the workbook that they are of
	by   []kept[T]
}

type kept[T any] struct {
	value T
	ok    bool
}

// of gives what a field says: what read makes of it, unless it is known. What read makes
// is kept if it says so.
func (m *shared[T]) of(t *table.Table, f *table.Field, read func() (v T, keep bool)) T {
	if f.Shared == 0 {
		v, _ := read()
		return v
	}
	if m.file != t.Sheet.File || len(m.by) <= t.Texts {
		m.file, m.by = t.Sheet.File, make([]kept[T], t.Texts+1)
	}
	k := &m.by[f.Shared]
	if !k.ok {
		k.value, k.ok = read()
	}
	return k.value
}
