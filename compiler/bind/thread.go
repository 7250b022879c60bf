package bind

import (
	"errors"
	"regexp"

	"ferrule/compiler/finding"
	"ferrule/compiler/measure"
	"ferrule/sheets/cell"
)

// threaded tells whether a column whose header states no unit is one of screw threads: at
// least half of its cells are. The sizes among them are threads as well, and no values.
func (g *gauge) threaded() bool {
	threads := 0
	for _, r := range g.cells {
		if measure.Thread(r.text) {
			threads++
		}
	}
	return threads > 0 && 2*threads >= len(g.cells)
}

// isDay is a date as spreadsheet programs and other formats write it.
var isDay = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}\b`)

// threads reports dates in a column of threads: 1-8 becomes one as it is typed.
func (b *binder) threads(g *gauge) {
	told := map[cell.Place]bool{}
	if !g.threaded() {
		return
	}
	for _, r := range g.cells {
		if isDay.MatchString(r.text) && !told[r.at] {
			b.fail(finding.CellDateMangled, r.at, "the cell holds the date %s among the threads of %s, which is probably not what was typed; set the cell's format to text, then type the thread again", r.text, g.name)
			told[r.at] = true
		}
	}
}

// contradicts tells whether what a cell says may not be published: it is two values that
// disagree, two numbers that are no value, or a value of another kind.
func (r *reading) contradicts() bool {
	return r.err == nil || errors.Is(r.err, measure.ErrDisagree) || errors.Is(r.err, measure.ErrFraction)
}
