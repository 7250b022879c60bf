// Package sorted finds columns that were sorted without the others of their sheet: what each
// row says there is then about another row's vehicles.
//
// A sort leaves the filled cells at the top, in order, and blanks below. Careful sheets have
// such columns too, so the order alone is never told. It is told with what can hardly come of
// anything else:
//
//   - A column of a position in Fitment: two rows or more are left in which nothing is fitted
//     anywhere, and vehicles without an answer at the position. Or, where the order is long, several
//     parts stand where they cannot be.
//   - A column of conditions in Fitment: rows in which it is blank disagree, vehicles are
//     without an answer or rows in which it is filled cannot be right, and no single row is
//     concerned in all of it. Of several such columns those are named on which the position
//     depends elsewhere.
//   - A trait in Vehicles: on two platforms or more, rows ask for values of it that none of
//     the platform's vehicles has.
//
// Where an earlier release is at hand, that tells instead, of any column (Since).
//
// The order is looked for in the texts of sheets before they are bound, the rest in the
// catalogue and what checks have found.
package sorted

import (
	"strconv"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Column is one whose filled cells are in order, with all blanks below them.
type Column struct {
	Name   string
	Cells  []cell.Place // that are filled
	Values int          // how many different texts
	Rows   int          // of the sheet
	Bare   int          // rows of the sheet that fill no column of a position
	Kind   string       // of the sheet
}

// Find gives the columns of Fitment and Vehicles that are in order and say two things or
// more, or leave rows bare. places holds the folded names of all positions.
func Find(tables []*table.Table, places map[string]bool) []*Column {
	var out []*Column
	for _, t := range tables {
		if t.Headed && (t.Laid == nil || !t.Laid.Several) && (t.Kind == schema.Fitment || t.Kind == schema.Vehicles) {
			out = append(out, find(t, places)...)
		}
	}
	return out
}

func find(t *table.Table, places map[string]bool) []*Column {
	downs, placed, bare := make([]down, len(t.Columns)), positions(t, places), 0
	for i := range downs {
		downs[i].ways = eitherWay
	}
	for i := range t.Records {
		fits := false
		for k := range t.Records[i].Fields {
			f := &t.Records[i].Fields[k]
			fits = fits || placed[f.Column]
			downs[f.Column].add(i, t.Records[i].Row, f)
		}
		if !fits {
			bare++
		}
	}
	var out []*Column
	for i := range downs {
		if d := &downs[i]; d.ways != 0 && (d.values > 1 || d.filled > 0 && placed[i] && bare >= leastBare) {
			out = append(out, &Column{Name: t.Columns[i].Name, Cells: d.places(t, i), Values: d.values, Rows: len(t.Records), Bare: bare, Kind: t.Kind})
		}
	}
	return out
}

// positions tells which columns say what is fitted.
func positions(t *table.Table, places map[string]bool) []bool {
	out := make([]bool, len(t.Columns))
	for i := range t.Columns {
		c := &t.Columns[i]
		out[i] = c.Known && c.Name == "Fits" || !c.Known && places[word.Fold(c.Name)]
	}
	return out
}

// The ways in which a column can be in order: as programs sort, which do not see case and
// know numbers; by the letters' codes; and backwards.
const (
	upwards = 1 << iota
	byCode
	downwards
	eitherWay = upwards | byCode | downwards
)

// down is what a column is like, down to a row.
type down struct {
	ways   int // in which it still is in order; 0: in none
	last   string
	filled int
	values int
}

// add looks at the next filled cell. Merged cells are never sorted alone.
func (d *down) add(record int, row int32, f *table.Field) {
	switch {
	case d.ways == 0:
		return
	case record != d.filled || f.At.Row != row || f.Broken:
		d.ways = 0
		return
	case record == 0 || f.Text != d.last:
		d.values++
	}
	if record > 0 && f.Text != d.last {
		d.ways &= ways(d.last, f.Text)
	}
	d.filled, d.last = record+1, f.Text
}

// ways gives those in which one text may stand above another.
func ways(a, b string) (out int) {
	if a < b {
		out |= byCode
	}
	n := order(a, b)
	if n <= 0 {
		out |= upwards
	}
	if n >= 0 {
		out |= downwards
	}
	return out
}

// order compares two texts as spreadsheet programs do.
func order(a, b string) int {
	x, err := strconv.ParseFloat(a, 64)
	y, other := strconv.ParseFloat(b, 64)
	switch {
	case err == nil && other == nil && x < y:
		return -1
	case err == nil && other == nil && x > y:
		return 1
	case err == nil && other == nil:
		return 0
	case err == nil:
		return -1
	case other == nil:
		return 1
	}
	return strings.Compare(word.Fold(a), word.Fold(b))
}

func (d *down) places(t *table.Table, column int) []cell.Place {
	out := make([]cell.Place, d.filled)
	for i := range out {
		for k := range t.Records[i].Fields {
			if f := &t.Records[i].Fields[k]; int(f.Column) == column {
				out[i] = t.Place(f.At)
			}
		}
	}
	return out
}
