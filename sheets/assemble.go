package sheets

import (
	"strings"

	"ferrule/sheets/cell"
)

// rawCell is a cell as its XML has it, before anything is looked up.
type rawCell struct {
	ref, style, kind string // attributes r, s and t; "" where absent
	value            string // <v>
	formula          string // <f>
	formulaKind      string // its attribute t
	inline           words  // <is>

	hasValue, hasFormula, hasInline bool
}

func (c *rawCell) has(name string) bool {
	return name == "v" && c.hasValue || name == "f" && c.hasFormula || name == "is" && c.hasInline
}

// assembler makes rows of what a scanner finds and holds it to the rules of order. It
// does not know how the XML was read, so that every scanner has the same rules.
type assembler struct {
	typer
	yield   func(*Row) error
	row     Row
	given   Row // a row that the fast scanner found
	lastCol int32
	trailer Trailer
	fast    int // how many rows the fast scanner found
}

// startRow begins a row; number is its attribute r, and rows without one count on.
func (a *assembler) startRow(number string, hidden bool) error {
	next := a.row.Number + 1
	if number != "" {
		n, ok := count(number)
		if !ok || n < 1 || n > cell.MaxRow {
			return a.fault("a row has the number %q; rows are numbered 1 to %d", number, cell.MaxRow)
		}
		if int32(n) < next {
			return a.at(cell.Pos{Row: int32(n), Col: 1}, "row %d is stored after row %d, so that rows stand twice or out of order", n, a.row.Number)
		}
		next = int32(n)
	}
	if next > cell.MaxRow {
		return a.fault("it has rows beyond the last one of a sheet, %d", cell.MaxRow)
	}
	a.row = Row{Number: next, Hidden: hidden, Cells: a.row.Cells[:0]}
	a.lastCol = 0
	return nil
}

// place finds where the next cell of the row is; ref is its attribute r, and cells
// without one count on.
func (a *assembler) place(ref string) (cell.Pos, error) {
	pos := cell.Pos{Row: a.row.Number, Col: a.lastCol + 1}
	if ref != "" {
		at, ok := cell.Parse(ref)
		switch {
		case !ok:
			return pos, a.fault("a cell of row %d has the name %q, which no cell between A1 and XFD%d has", pos.Row, ref, cell.MaxRow)
		case at.Row != pos.Row:
			return pos, a.at(at, "the cell is stored in row %d", pos.Row)
		case at.Col < pos.Col:
			return pos, a.at(at, "the cell is stored after cell %s, so that cells stand twice or out of order", cell.Pos{Row: pos.Row, Col: a.lastCol})
		}
		pos = at
	}
	if pos.Col > cell.MaxCol {
		return pos, a.fault("row %d has cells beyond the last column, XFD", pos.Row)
	}
	a.lastCol = pos.Col
	return pos, nil
}

// cell takes a cell at the position that place gave.
func (a *assembler) cell(pos cell.Pos, raw *rawCell) error {
	style, err := a.style(pos, raw.style)
	if err != nil {
		return err
	}
	v, err := a.value(pos, style, raw)
	if err != nil {
		return err
	}
	if holds(&v) {
		a.row.Cells = append(a.row.Cells, Cell{pos.Col, style.bold, v})
	}
	return nil
}

// endRow gives the row out if it holds cells.
func (a *assembler) endRow() error {
	if len(a.row.Cells) == 0 {
		return nil
	}
	if a.row.Hidden {
		a.trailer.HiddenRows++
	}
	return a.yield(&a.row)
}

// rows gives the rows of a block out, which keep the rules in themselves and follow
// the last row.
func (a *assembler) rows(b *block) error {
	from := 0
	for _, s := range b.rows {
		a.row.Number = s.number
		if s.end > from {
			if s.hidden {
				a.trailer.HiddenRows++
			}
			a.given = Row{Number: s.number, Hidden: s.hidden, Cells: b.cells[from:s.end:s.end]}
			if err := a.yield(&a.given); err != nil {
				return err
			}
		}
		from = s.end
	}
	return nil
}

// columns notes hidden columns, first to last counted from 1.
func (a *assembler) columns(first, last string, hidden bool) error {
	from, okFrom := count(first)
	to, okTo := count(last)
	if !okFrom || !okTo || from < 1 || to < from || to > cell.MaxCol {
		return a.fault("its columns %q to %q do not exist", first, last)
	}
	if hidden {
		if len(a.trailer.HiddenCols) == maxHidden {
			return a.fault("it says more than %d times that columns are hidden", maxHidden)
		}
		a.trailer.HiddenCols = append(a.trailer.HiddenCols, cell.Range{
			From: cell.Pos{Row: 1, Col: int32(from)},
			To:   cell.Pos{Row: cell.MaxRow, Col: int32(to)},
		})
	}
	return nil
}

// merge notes a merged range. One that holds a single cell means nothing.
func (a *assembler) merge(ref string) error {
	r, ok := cell.ParseRange(ref)
	if !ok {
		return a.fault("it has a merged range %q, which is no range of cells", ref)
	}
	if r.From == r.To {
		return nil
	}
	if len(a.trailer.Merges) == maxMerges {
		return a.fault("it has more than %d merged ranges", maxMerges)
	}
	a.trailer.Merges = append(a.trailer.Merges, r)
	return nil
}

// finish gives the trailer after the whole sheet was read.
func (a *assembler) finish() (*Trailer, error) {
	if one, other, ok := overlap(a.trailer.Merges); ok {
		return nil, a.at(one.From, "the merged ranges %s and %s lie over each other", other, one)
	}
	return &a.trailer, nil
}

// formulaText says what a formula is where its text stands elsewhere.
func formulaText(raw *rawCell) string {
	text := strings.TrimPrefix(unescape(raw.formula), "=")
	switch {
	case text != "" || !raw.hasFormula:
		return text
	case raw.formulaKind == "shared":
		return "(shared)"
	case raw.formulaKind == "dataTable":
		return "(data table)"
	case raw.formulaKind == "array":
		return "(array)"
	}
	return ""
}
