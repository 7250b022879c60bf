package table

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
)

// fault is what the cells of a column share that are shown in another unit than they are read in.
type fault struct {
	column int32
	what   string
}

// gathered tells a fault that many cells of a column share once: at the first of them, with
// how many they are and all of their cells.
func (r *reader) gathered(told []*finding.Finding) []*finding.Finding {
	more := map[*finding.Finding]bool{}
	for _, all := range r.faults {
		if len(all) < 2 {
			continue
		}
		first := all[0]
		first.Gist = "of several cells the first: " + first.Message
		first.Message = fmt.Sprintf("%d cells of this column are shown in another unit than they are read in; the first: %s", len(all), first.Message)
		first.Fix += "; so for all of them"
		for _, f := range all[1:] {
			first.Cells = append(first.Cells, f.Cells...)
			more[f] = true
		}
	}
	return slices.DeleteFunc(told, func(f *finding.Finding) bool { return more[f] })
}
