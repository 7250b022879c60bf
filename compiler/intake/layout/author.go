package layout

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// maxPieces bounds how many times one sheet is read.
const maxPieces = 200

// author writes the pieces of a plan.
type author struct {
	*Plan
	report func(*table.Fault)
	begun  bool // a row table was met
}

// write understands the rows in their order, each about the table that was begun last.
func (a *author) write() {
	var common []*Row // they stand above the first table, and hold for each
	for _, r := range a.rows {
		take, known := words[r.Word]
		switch {
		case r.Word == WordTable:
			a.table(r, common)
		case !known: // its schema tells
		case len(a.pieces) == 0 && !a.begun:
			common = append(common, r)
		case len(a.pieces) > 0:
			take(a, a.pieces[len(a.pieces)-1], r)
		}
	}
	if !a.begun && len(common) > 0 {
		a.tableless = &table.Fault{What: table.Unread, Message: fmt.Sprintf("no row table says where the sheet %q has a table", a.rows[0].Sheet),
			Fix:   "write a row table first, which says where the heads are and of which kind the rows are: table, header 1, Fitment",
			Cells: []cell.Place{common[0].WordAt}}
	}
	for _, p := range a.pieces {
		a.agree(p)
	}
}

// common adds to a table the rows that hold for each. What is wrong with them is told once.
func (a *author) common(p *piece, rows []*Row) {
	quiet := &author{Plan: a.Plan, report: func(*table.Fault) {}}
	if len(a.pieces) == 1 {
		quiet.report = a.report
	}
	for _, r := range rows {
		words[r.Word](quiet, p, r)
	}
}

// words are what is done with a row of each word but table.
var words = map[string]func(*author, *piece, *Row){
	WordIs: (*author).isRow, WordAcross: (*author).acrossRow, WordCells: (*author).cellsRow, WordMark: (*author).markRow, WordSplit: (*author).splitRow,
	WordDown: (*author).downRow, WordSection: (*author).sectionRow, WordSkip: (*author).skipRow, WordSay: (*author).sayRow,
}

// fail tells of a row that cannot be understood.
func (a *author) fail(at cell.Place, message, fix string) {
	a.report(&table.Fault{What: table.Unread, Message: message, Fix: fix, Cells: []cell.Place{at}})
}

// contradict tells of two rows that cannot both hold.
func (a *author) contradict(first, again cell.Place, message, fix string) {
	a.report(&table.Fault{What: table.Contradicted, Message: message, Fix: fix, Cells: []cell.Place{again, first}})
}

// table begins a table of the sheet, of which the rows of Layouts behind it say more.
func (a *author) table(r *Row, common []*Row) {
	a.begun = true
	p := &piece{top: r}
	var ok bool
	if p.extent, ok = extentOf(r.Where); !ok {
		a.fail(r.WhereAt, fmt.Sprintf("%s under Where of a row table does not say where the heads are%s", said(r.Where), word.DidYouMean(firstWord(r.Where), []string{"header", "rows", "until", "no header"})),
			`write header 3, header 2-3 or no header; behind it, where the table does not go on to the end of the sheet, rows 4-60 or until "Total"`)
	}
	p.kind = a.kindOf(r)
	if len(a.pieces) == maxPieces {
		a.fail(r.WordAt, fmt.Sprintf("the sheet %q is read more than %d times", r.Sheet, maxPieces), "read several columns by one row across, or write a pattern")
		return
	}
	if !ok {
		p.kind = ""
	}
	a.pieces = append(a.pieces, p)
	a.common(p, common)
}

// kindOf gives the kind of sheet whose rows come of a table; "" where it is none, which is told.
func (a *author) kindOf(r *Row) string {
	kind := strings.ToLower(strings.TrimSpace(r.As))
	kinds := slices.DeleteFunc(schema.Kinds(), func(k string) bool { return k == schema.Layouts })
	if slices.Contains(kinds, kind) || kind == schema.Fleet {
		return kind
	}
	titles := make([]string, len(kinds))
	for i, k := range kinds {
		titles[i] = schema.Title(k)
	}
	a.fail(r.AsAt, fmt.Sprintf("%s under As of a row table is no kind of sheet%s", said(r.As), word.DidYouMean(r.As, titles)),
		"write the kind whose rows come of the table: "+word.List(titles, "or"))
	return ""
}

func firstWord(s string) string {
	first, _, _ := strings.Cut(strings.TrimSpace(s), " ")
	return first
}

// said quotes what a cell says, also where it says nothing.
func said(text string) string {
	if text == "" {
		return "nothing"
	}
	return word.Quote(table.Short(text))
}

// cellsRow understands a row cells: the column that the cells below across hold.
func (a *author) cellsRow(p *piece, r *Row) {
	if p.cells != nil {
		a.contradict(p.cells.row.AsAt, r.AsAt, "two rows say what the cells of one table say", "keep one of them, or read the sheet by a second row table")
		return
	}
	if r.As == "" {
		a.fail(r.AsAt, "nothing stands under As of a row cells", "write the column that the cells below across hold, such as Fits, or delete the row: Fits is meant without it")
		return
	}
	p.cells = &holding{row: r, levels: [][]target{level(r.As)}}
}
