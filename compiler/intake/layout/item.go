package layout

import (
	"strings"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// item is a filled cell of a row, or one that a merged range gives its value.
type item struct {
	*sheets.Value
	col  int32
	at   cell.Pos // the first cell of a merged range
	bold bool
	wide bool // merged over several columns
}

// said gives what the cell says, with white space at both ends cut.
func (i *item) said() string { return strings.TrimSpace(i.Text) }

// rowOf gives the row that is at hand.
func (r *reader) rowOf(int) int32 { return r.merged.number }

// first gives the first filled cell of the row.
func (r *reader) first() string { return r.items[0].said() }

// at gives the place of the row's first filled cell; that of no cell where there is none.
func (r *reader) at() cell.Pos {
	if len(r.items) == 0 {
		return cell.Pos{}
	}
	return r.items[0].at
}

// lone tells whether the row holds one cell alone, also where that is merged.
func (r *reader) lone() bool {
	for i := range r.items {
		if r.items[i].at != r.items[0].at {
			return false
		}
	}
	return true
}
