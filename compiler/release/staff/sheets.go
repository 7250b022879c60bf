package staff

import (
	"errors"
	"io"
	"io/fs"
	"strconv"
	"strings"

	"ferrule/compiler/intake/written"
	"ferrule/compiler/wire"
	"ferrule/sheets/cell"
)

const sheetsName = "sheets.json"

type sheetsFile struct {
	Sheets []writtenSheet `json:"sheets"`
}

// writtenSheet is a sheet as it was read. Each text stands once, the first being that of blank
// cells. A row is its number in the sheet, then for each column which of the texts it says,
// counted from 0, without blanks at its end: `4 1 0 7`.
type writtenSheet struct {
	File    string          `json:"file"`
	Sheet   string          `json:"sheet"`
	Kind    string          `json:"kind"`
	Columns []writtenColumn `json:"columns"`
	Texts   []string        `json:"texts"`
	Rows    []string        `json:"rows"`
}

type writtenColumn struct {
	Name  string `json:"name"`
	Unit  string `json:"unit,omitempty"`
	At    string `json:"at"` // its letters
	Known bool   `json:"known"`
}

// Sheets writes sheets.json for the staff: what each cell says, so that a build to come can
// tell which rows say something else.
func Sheets(w io.Writer, all []*written.Sheet) error {
	return wire.Write(w, sheetsFile{wire.Each(all, writtenSheetOf)})
}

func writtenSheetOf(s *written.Sheet) writtenSheet {
	out := writtenSheet{File: s.Of.File, Sheet: s.Of.Name, Kind: s.Kind, Texts: s.Texts, Rows: make([]string, len(s.Rows))}
	out.Columns = wire.Each(s.Columns, func(c written.Column) writtenColumn {
		return writtenColumn{c.Name, c.Unit, cell.Column(c.At), c.Known}
	})
	var b []byte
	for i, r := range s.Rows {
		b = strconv.AppendInt(b[:0], int64(r.Number), 10)
		end := len(b)
		for _, text := range r.Cells {
			b = strconv.AppendUint(append(b, ' '), uint64(text), 10)
			if text != 0 {
				end = len(b)
			}
		}
		out.Rows[i] = string(b[:end])
	}
	return out
}

// written reads what Sheets wrote. Programs of earlier builds wrote no such file: then nothing
// is known of what cells said.
func (r *reader) written(folder fs.FS) ([]*written.Sheet, error) {
	var file sheetsFile
	if _, err := fs.Stat(folder, sheetsName); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err := load(folder, sheetsName, &file); err != nil {
		return nil, err
	}
	r.file = sheetsName
	out := []*written.Sheet{}
	for i := range file.Sheets {
		out = append(out, r.writtenSheet(&file.Sheets[i]))
	}
	return out, nil
}

func (r *reader) writtenSheet(in *writtenSheet) *written.Sheet {
	s := &written.Sheet{Of: r.place(&wire.Place{File: in.File, Sheet: in.Sheet}).Sheet, Kind: in.Kind, Texts: in.Texts}
	if len(s.Texts) == 0 || s.Texts[0] != "" {
		r.fail("the first text of %s is not that of blank cells", in.Sheet)
		return s
	}
	for _, c := range in.Columns {
		at, ok := cell.Parse(c.At + "1")
		if !ok {
			r.fail("%q is no column", c.At)
		}
		s.Columns = append(s.Columns, written.Column{Name: c.Name, Unit: c.Unit, At: at.Col, Known: c.Known})
	}
	for _, text := range in.Rows {
		s.Rows = append(s.Rows, r.writtenRow(s, text))
	}
	return s
}

func (r *reader) writtenRow(s *written.Sheet, text string) written.Row {
	out := written.Row{Cells: make([]uint32, len(s.Columns))}
	for i, field := range strings.Fields(text) {
		n, err := strconv.ParseUint(field, 10, 31)
		switch {
		case err == nil && i == 0 && n <= cell.MaxRow:
			out.Number = int32(n)
		case err == nil && i > 0 && i <= len(s.Columns) && n < uint64(len(s.Texts)):
			out.Cells[i-1] = uint32(n)
		default:
			r.fail("%q is no row of %s", text, s.Of.Name)
			return out
		}
	}
	if out.Number == 0 {
		r.fail("a row of %s has no number", s.Of.Name)
	}
	return out
}
