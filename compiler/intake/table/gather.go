package table

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
)

// manyCells is how many cells of a column with dates, or shown as other numbers, are one fault:
// those of a whole column are, and two may be two.
const manyCells = 3

// fault is what cells of a column have in common that is wrong with them.
type fault struct {
	column int32
	what   string // equal for cells that share it
	words  string // what is said of several cells: "are shown as percentages"
	least  int    // how many cells are one fault; fewer are told one by one
}

// gathered tells a fault that many cells of a column share once: at the first of them, with
// how many they are and all of their cells, and what to do at each where that differs.
func (r *reader) gathered(told []*finding.Finding) []*finding.Finding {
	more := map[*finding.Finding]bool{}
	for at, all := range r.faults {
		if len(all) < at.least {
			continue
		}
		first := all[0]
		first.Gist = "of several cells the first: " + first.Message
		first.Message = fmt.Sprintf("%d cells under %s %s; the first: %s", len(all), r.under(at.column), at.words, first.Message)
		fix, likewise := first.Fix, "; so for all of them"
		for _, f := range all[1:] {
			cells := slices.Clone(f.Cells)
			if f.Fix != fix {
				cells[0].Note, likewise = f.Fix, "; the other cells as it is said beside each"
			}
			first.Cells = append(first.Cells, cells...)
			more[f] = true
		}
		first.Fix += likewise
	}
	return slices.DeleteFunc(told, func(f *finding.Finding) bool { return more[f] })
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
