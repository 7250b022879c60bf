package table

import (
	"fmt"
	"slices"
)

// manyCells is how many cells of a column with dates, or shown as other numbers, are one fault:
// those of a whole column are, and two may be two.
const manyCells = 3

// sharedFault is what cells of a column have in common that is wrong with them.
type sharedFault struct {
	column int32
	what   string // equal for cells that share it
	words  string // what is said of several cells: "are shown as percentages"
	least  int    // how many cells are one fault; fewer are told one by one
}

// gathered tells a fault that many cells of a column share once: at the first of them, with
// how many they are and all of their cells, and what to do at each where that differs.
func (r *reader) gathered(told []*Fault) []*Fault {
	more := map[*Fault]bool{}
	for at, all := range r.faults {
		if len(all) < at.least {
			continue
		}
		first := all[0]
		first.Meant = nil // each cell is another
		first.Constant = "of several cells the first: " + first.Message
		first.Message = fmt.Sprintf("%d cells under %s %s; the first: %s", len(all), r.under(at.column), at.words, first.Message)
		fix, likewise := first.Fix, "; so for all of them"
		first.Notes = make([]string, len(first.Cells))
		for _, f := range all[1:] {
			notes := make([]string, len(f.Cells))
			if f.Fix != fix {
				notes[0], likewise = f.Fix, "; the other cells as it is said beside each"
			}
			first.Cells, first.Notes = append(first.Cells, f.Cells...), append(first.Notes, notes...)
			more[f] = true
		}
		first.Fix += likewise
	}
	return slices.DeleteFunc(told, func(f *Fault) bool { return more[f] })
}

// under gives the name of a column of the sheet.
func (r *reader) under(col int32) string {
	for _, c := range r.table.Columns {
		if c.At.Col == col {
			return c.Name
		}
	}
	return "one header"
}
