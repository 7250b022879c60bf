package patch

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"hash"
	"math"
	"slices"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// broken says that a copy did not turn out as it should. Nobody gets it.
func broken(format string, args ...any) error {
	return refuse("the copy would not have been faithful: "+format, args...)
}

// verify reads a copy back and holds it against the workbook.
func (p *patching) verify(data []byte) error {
	copied, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return broken("it cannot be read (%v)", err)
	}
	was, is := p.book.Sheets(), copied.Sheets()
	if p.change.Sheet != nil {
		ours := sheets.Info{Name: p.sheet}
		if p.change.Sheet.Hidden {
			ours.Visibility = sheets.Hidden
		}
		was = append(slices.Clip(was), ours)
	}
	if !slices.Equal(was, is) {
		return broken("it lists other sheets")
	}
	for i := range p.book.Sheets() {
		if err := p.sameCells(copied, i); err != nil {
			return err
		}
	}
	if p.change.Sheet != nil {
		if err := p.sameSheet(copied); err != nil {
			return err
		}
	}
	if err := p.sameElements(copied); err != nil {
		return err
	}
	if err := p.resolved(copied); err != nil {
		return err
	}
	return p.complete(copied)
}

// sameCells holds every cell of a sheet against the copy, and what was written against what was to be.
func (p *patching) sameCells(copied *sheets.Book, sheet int) error {
	written := map[cell.Pos]*string{}
	for _, c := range p.change.Cells {
		if c.Sheet == sheet && c.Write != nil {
			written[c.At] = c.Write
		}
	}
	name := p.book.Sheets()[sheet].Name
	was, err := digest(p.book, sheet, func(at cell.Pos, _ *sheets.Value) (bool, error) {
		_, ours := written[at]
		return ours, nil
	})
	if err != nil {
		return err
	}
	seen := 0
	is, err := digest(copied, sheet, func(at cell.Pos, v *sheets.Value) (bool, error) {
		text, ours := written[at]
		if !ours {
			return false, nil
		}
		seen++
		if v.Kind != sheets.Text || v.Text != *text {
			return true, broken("the cell %s of %q holds %q", at, name, v.Text)
		}
		return true, nil
	})
	switch {
	case err != nil:
		return err
	case seen < len(written):
		return broken("cells of %q that were written are not there", name)
	case was != is:
		return broken("cells of %q hold something else", name)
	}
	return nil
}

// digest is equal for two sheets with the same cells, merged ranges and hidden rows and columns, but for
// colours and for the cells that aside takes.
func digest(book *sheets.Book, sheet int, aside func(cell.Pos, *sheets.Value) (bool, error)) (sum [sha256.Size]byte, err error) {
	d := digester{Hash: sha256.New()}
	trailer, err := book.Rows(sheet, func(r *sheets.Row) error {
		for i := range r.Cells {
			c := &r.Cells[i]
			skip, err := aside(cell.Pos{Row: r.Number, Col: c.Col}, &c.Value)
			if err != nil {
				return err
			}
			if !skip {
				d.cell(r, c)
			}
		}
		return nil
	})
	if err != nil {
		return sum, err
	}
	for _, m := range trailer.Merges {
		d.text(m.String())
	}
	for _, h := range trailer.HiddenCols {
		d.text(h.String())
	}
	d.text(fmt.Sprint(trailer.Filtered, trailer.LinkedCells))
	d.Sum(sum[:0])
	return sum, nil
}

// digester writes texts with their lengths, so that none runs into another.
type digester struct {
	hash.Hash
	buffer []byte
}

func (d *digester) text(s string) {
	d.buffer = append(binary.AppendUvarint(d.buffer[:0], uint64(len(s))), s...)
	d.Write(d.buffer)
}

func (d *digester) cell(r *sheets.Row, c *sheets.Cell) {
	b := binary.AppendUvarint(d.buffer[:0], uint64(r.Number))
	b = append(b, flag(r.Hidden), byte(c.Kind), flag(c.Struck), flag(c.Partly))
	b = binary.AppendUvarint(b, uint64(c.Col))
	b = binary.BigEndian.AppendUint64(b, math.Float64bits(c.Number))
	d.buffer = b
	d.Write(b)
	d.text(c.Text)
	d.text(c.Format)
	d.text(c.Formula)
}

func flag(b bool) byte {
	if b {
		return 1
	}
	return 0
}

// sameSheet holds that the appended sheet says what it should, as texts and nothing else.
func (p *patching) sameSheet(copied *sheets.Book) error {
	var want, got []string
	for r, row := range p.change.Sheet.Rows {
		for c, t := range row {
			if t.Text != "" {
				want = append(want, cell.Pos{Row: int32(r + 1), Col: int32(c + 1)}.String()+" "+t.Text)
			}
		}
	}
	_, err := copied.Rows(len(p.book.Sheets()), func(r *sheets.Row) error {
		for i := range r.Cells {
			c := &r.Cells[i]
			if c.Kind != sheets.Text || c.Formula != "" {
				return broken("the sheet %q holds something else than texts", p.sheet)
			}
			got = append(got, cell.Pos{Row: r.Number, Col: c.Col}.String()+" "+c.Text)
		}
		return nil
	})
	if err != nil {
		return err
	}
	if !slices.EqualFunc(want, got, func(a, b string) bool { return escaped(a) == escaped(b) }) {
		return broken("the sheet %q says something else", p.sheet)
	}
	return nil
}

// resolved holds that every relation leads to a part, as far as it did before.
func (p *patching) resolved(copied *sheets.Book) error {
	before := map[string]bool{}
	for _, name := range append(p.book.Parts(), "") {
		rels, err := p.book.Relations(name)
		for _, r := range rels {
			before[name+" "+r.ID] = r.Missing
		}
		if err != nil {
			before[name] = true // it could not be read before
		}
	}
	for _, name := range append(copied.Parts(), "") {
		rels, err := copied.Relations(name)
		if err != nil && !before[name] {
			return broken("what its part %s leads to cannot be read (%v)", name, err)
		}
		for _, r := range rels {
			if r.Missing && !before[name+" "+r.ID] {
				return broken("its part %s leads to %s, which is missing", name, r.Target)
			}
			delete(before, name+" "+r.ID)
		}
	}
	for key := range before {
		if !before[key] {
			return broken("a relation (%s) is lost", key)
		}
	}
	return nil
}

// complete holds that every part has a type, as far as it had one before.
func (p *patching) complete(copied *sheets.Book) error {
	was, err := untyped(p.book)
	if err != nil {
		return err
	}
	is, err := untyped(copied)
	if err != nil {
		return err
	}
	for _, name := range is {
		if !slices.Contains(was, name) {
			return broken("its part %s has no type", name)
		}
	}
	return nil
}
