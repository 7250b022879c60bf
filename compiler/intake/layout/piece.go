package layout

import (
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
)

// piece is a table of a sheet, with all that is said of it.
type piece struct {
	top      *Row // its row table
	kind     string
	extent   extent
	is       []*holding
	across   []*holding
	cells    *holding
	marks    []*mark
	joins    []*join
	splits   []*split
	downs    []*named
	sections []*section
	skips    []*named
	says     []*say
	years    years
	century  *Row
	failed   bool // on some sheet it could not be followed
}

// holding says that something holds values of columns.
type holding struct {
	row *Row
	place
	to     place      // the end of a stretch of heads
	far    bool       // there is a stretch
	levels [][]target // one of them, or one a row of heads
	labels bool       // it holds the names of columns
}

// levels0 gives the columns of what has one level alone; none for the names of columns.
func (h *holding) levels0() []target {
	if len(h.levels) == 0 {
		return nil
	}
	return h.levels[0]
}

// target is a column that values go to.
type target struct{ name, unit string }

// level reads the columns that one value goes to: one, or one and Years.
func level(text string) []target {
	if i := strings.LastIndexByte(text, ','); i > 0 && word.Fold(text[i+1:]) == "years" {
		return []target{targetOf(text[:i]), targetOf(text[i+1:])}
	}
	return []target{targetOf(text)}
}

func targetOf(text string) target {
	name, unit := table.Split(text)
	return target{name, unit}
}

// mark is a mark, or a footnote sign, and what it says.
type mark struct {
	row     *Row
	sign    string
	part    bool // the part of the row
	nothing bool
	note    bool   // a text below the table says it
	fits    string // none, and why
	conds   []cond
}

// cond is what a mark says of a column.
type cond struct {
	target target
	text   string
}

// join says how several parts that are marked at one place go together.
type join struct {
	row  *Row
	sign string // "" for all marks
	with string // or, +
}

// named is a row of Layouts that is about one place and says nothing else of it.
type named struct {
	row *Row
	place
}
