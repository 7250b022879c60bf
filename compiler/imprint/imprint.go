// Package imprint tells of two catalogues, one made after the other, which platforms nothing
// has changed for: what was worked out for these holds still.
//
// Everything that stands in a sheet counts, as a digest of its row. A row that is bound as one
// of certain platforms counts for these; a row of Parts or Kits counts for the platforms that
// offer the part, or something that holds it or that it replaces; any other row, and each
// header, counts for all platforms. So a kind of sheet that this package knows nothing of, and a
// row that cannot be read, may cost time and never a right answer. What a fitment cell and a
// condition are read as counts besides: that depends on the names that other sheets declare.
package imprint

import (
	"crypto/sha256"
	"encoding/binary"
	"maps"
	"slices"

	"ferrule/compiler/intake"
	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// Digest is equal for what is equal.
type Digest [sha256.Size]byte

// Sheets holds the digests of all rows. It is made before the rows are bound, which uses them
// up.
type Sheets struct {
	rules  [][]byte // files that make the rules for rows stricter
	tables []*rows
	of     map[*cell.Sheet]*rows
}

// All gives the sheets.
func (s *Sheets) All() []*cell.Sheet { return slices.Collect(maps.Keys(s.of)) }

// rows are those of one sheet.
type rows struct {
	kind string
	head Digest // its name and columns
	all  []row  // by number
}

type row struct {
	sheet  *cell.Sheet
	number int32
	said   Digest // what it says, wherever it stands
	used   bool   // it counts for certain platforms
}

// New makes the digests of tables, of sheets that are not used, and of files that make the
// rules for rows stricter.
func New(tables []*table.Table, aside []intake.Aside, rules []schema.Extra) *Sheets {
	s := &Sheets{of: map[*cell.Sheet]*rows{}}
	for _, r := range rules {
		s.rules = append(s.rules, []byte(r.Name), r.Data)
	}
	for _, t := range tables {
		s.add(t)
	}
	for _, a := range aside {
		s.add(a.Table)
	}
	return s
}

func (s *Sheets) add(t *table.Table) {
	if t == nil {
		return
	}
	w := writer{}
	r := &rows{kind: t.Kind, head: head(&w, t), all: make([]row, len(t.Records))}
	for i := range t.Records {
		rec := &t.Records[i]
		w.line = w.line[:0]
		w.digest(&r.head)
		if t.Kind == schema.Layouts {
			w.number(int(rec.Row)) // findings about all that is read by it name the row
		}
		for k := range rec.Fields {
			w.field(&rec.Fields[k], rec.Row)
		}
		for k := range t.Again {
			if f, filled := t.Again[k].Under(rec.Row); filled {
				w.field(f, rec.Row)
			}
		}
		r.all[i] = row{sheet: t.Sheet, number: rec.Row, said: w.sum()}
	}
	s.tables, s.of[t.Sheet] = append(s.tables, r), r
}

func head(w *writer, t *table.Table) Digest {
	w.line = w.line[:0]
	w.text(t.Kind)
	w.text(t.Sheet.File)
	w.text(t.Sheet.Name)
	for i := range t.Columns {
		c := &t.Columns[i]
		w.text(c.Name)
		w.text(c.Unit)
		w.number(int(c.At.Row), int(c.At.Col))
	}
	for i := range t.Again {
		w.number(t.Again[i].Of, int(t.Again[i].At.Col))
	}
	return w.sum()
}

// writer makes digests of what is written to it. Every text has its length before it, so
// that no two run into one another.
type writer struct{ line []byte }

func (w *writer) text(s string) {
	w.line = append(binary.AppendUvarint(w.line, uint64(len(s))), s...)
}

func (w *writer) number(n ...int) {
	for _, n := range n {
		w.line = binary.AppendVarint(w.line, int64(n))
	}
}

func (w *writer) yes(b ...bool) {
	for _, b := range b {
		w.line = append(w.line, '0')
		if b {
			w.line[len(w.line)-1] = '1'
		}
	}
}

// field writes a field of a row. Where its value is written counts as it stands to the row.
func (w *writer) field(f *table.Field, row int32) {
	w.number(int(f.Column), int(f.Kind), int(f.At.Row-row), int(f.At.Col))
	w.yes(f.Broken, f.OnLine)
	w.text(f.Text)
}

func (w *writer) digest(d *Digest) { w.line = append(w.line, d[:]...) }

func (w *writer) sum() Digest { return sha256.Sum256(w.line) }

// sink gathers what counts for a platform, or for all of them.
type sink struct {
	writer
	placed []Placed // its rows
}

func (s *sink) row(r *row) {
	s.digest(&r.said)
	s.placed = append(s.placed, Placed{r.sheet, r.number})
}

// find gives the row of a place, nil where no record begins there.
func (s *Sheets) find(at cell.Place, number int32) *row {
	t := s.of[at.Sheet]
	if t == nil {
		return nil
	}
	i, ok := slices.BinarySearchFunc(t.all, number, func(r row, n int32) int { return int(r.number - n) })
	if !ok {
		return nil
	}
	return &t.all[i]
}

// rest gives what counts for all platforms, once all that counts for certain ones is used. Other
// numbers of parts are left out: nothing that is said of vehicles depends on them.
func (s *Sheets) rest(to *sink) {
	for _, r := range s.rules {
		to.text(string(r))
	}
	for _, t := range s.tables {
		to.digest(&t.head)
		for i := range t.all {
			if r := &t.all[i]; !r.used && t.kind != schema.References {
				to.digest(&r.said)
				to.number(int(r.number))
			}
		}
	}
}
