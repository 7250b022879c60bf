// Package written keeps the rows of a release's sheets as they were written, and holds those of
// two releases against each other: which cells of a column say something else while nothing
// else in their rows has changed.
//
// Of one release alone nobody can tell a column that was sorted without the others from one
// that is meant so, where each row still makes sense. The earlier release knows what each row
// said. Rows are known again by all their other cells, wherever they stand, so that rows
// which were added, taken out or moved as a whole change nothing. Where several rows are the
// same but for the column, they are known as a group, and only where there are as many.
package written

import (
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/sheets/cell"
)

// Sheet is a sheet of a catalogue, without its header.
type Sheet struct {
	Of      *cell.Sheet
	Kind    string
	Columns []Column
	Texts   []string // each text that a cell holds, once; the first is that of blank cells
	Rows    []Row
}

// Column is one with a header.
type Column struct {
	Name  string // without its unit
	Unit  string // in square brackets behind the name, "" for none
	At    int32  // in the workbook
	Known bool   // the kind of sheet defines it
}

// Row is a row with at least one filled cell.
type Row struct {
	Number int32    // in the workbook
	Cells  []uint32 // by column: which of the sheet's Texts
}

// Text gives what a cell says, by index of row and column.
func (s *Sheet) Text(row, column int) string { return s.Texts[s.Rows[row].Cells[column]] }

// Place gives where a cell stands, by index of row and column.
func (s *Sheet) Place(row, column int) cell.Place {
	return cell.Place{Sheet: s.Of, Pos: cell.Pos{Row: s.Rows[row].Number, Col: s.Columns[column].At}}
}

// Of gives the sheets that have a header. They hold on to nothing of the tables but texts. Of a
// sheet that a layout reads only what stands in columns of its own is known, and nothing where
// one of its rows makes several.
func Of(tables []*table.Table) []*Sheet {
	var out []*Sheet
	for _, t := range tables {
		if t.Headed && (t.Laid == nil || !t.Laid.Several) {
			out = append(out, of(t))
		}
	}
	return out
}

func of(t *table.Table) *Sheet {
	s := &Sheet{Of: t.Sheet, Kind: t.Kind, Texts: []string{""}, Rows: make([]Row, len(t.Records))}
	at := make([]int, len(t.Columns)) // where each stands in s.Columns; -1 for one that says the same in all rows
	for i := range t.Columns {
		c := &t.Columns[i]
		if at[i] = len(s.Columns); c.At.Col < 1 {
			at[i] = -1
			continue
		}
		s.Columns = append(s.Columns, Column{c.Name, c.Unit, c.At.Col, c.Known})
	}
	index := map[string]uint32{"": 0}
	n := len(s.Columns)
	cells := make([]uint32, len(t.Records)*n)
	for i := range t.Records {
		row := Row{t.Records[i].Row, cells[:n:n]}
		cells = cells[n:]
		for k := range t.Records[i].Fields {
			f := &t.Records[i].Fields[k]
			if at[f.Column] < 0 {
				continue
			}
			id, ok := index[f.Text]
			if !ok {
				id = uint32(len(s.Texts))
				text := strings.Clone(f.Text)
				index[text], s.Texts = id, append(s.Texts, text)
			}
			row.Cells[at[f.Column]] = id
		}
		s.Rows[i] = row
	}
	s.Texts = slices.Clip(s.Texts)
	return s
}
