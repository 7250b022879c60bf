package propose

import (
	"fmt"
	"strings"

	"ferrule/sheets/cell"
)

// Sure is how sure a proposal is of one of its rows.
type Sure uint8

const (
	Unsure  Sure = iota // it may well be wrong: look at it first
	Likely              // the shape speaks for it
	Certain             // names say so
)

// String names it for people.
func (s Sure) String() string { return [...]string{"unsure", "likely", "sure"}[s] }

// Rule is a proposed row of Layouts.
type Rule struct {
	Sheet, Word, Where, As string
	Sure                   Sure
	Why                    string
}

// Remark is about what could not be read, or only with a guess.
type Remark struct {
	Cells []At   // the first of them
	N     int    // how many there are
	Says  string // what stands there
	Means string // what that probably means
	Write string // what to write, and where
}

// At is a cell of a sheet.
type At struct {
	Sheet string
	Pos   cell.Pos
}

// Places names cells, the first of n, each sheet once.
func Places(cells []At, n int) string {
	var out []string
	sheet := ""
	for _, c := range cells {
		name := c.Pos.String()
		if c.Sheet != sheet {
			sheet = c.Sheet
			name = sheet + "!" + name
		}
		out = append(out, name)
	}
	if n > len(cells) && len(cells) > 0 {
		out = append(out, fmt.Sprintf("and %d more", n-len(cells)))
	}
	return strings.Join(out, ", ")
}

// maxCells is how many cells of a remark are named.
const maxCells = 12

// Seen is what became of a sheet.
type Seen struct {
	Sheet   string
	Filled  int // cells that hold something
	Claimed int // those of them that a row of Layouts uses or leaves out on purpose
	Tables  int
	What    string // in a few words
	Known   bool   // it is read as it is, or left alone on purpose: nothing is proposed
	// Understood tells that a table of it is read by what is proposed.
	Understood bool
}

// Preview is the rows of one kind that come of the proposal.
type Preview struct {
	Kind    string
	Columns []string
	Rows    []Row
}

// Row is a row that comes of the proposal.
type Row struct {
	Texts []string // by column
	From  []At     // the cells that it is made of
}

// Told is what reading by the proposal finds fault with.
type Told struct {
	Message, Fix string
	Cells        []At
}

// Table is a drafted sheet.
type Table struct {
	Kind    string
	Columns []string
	Rows    [][]string
}

// Proposal is what a look at a workbook gives.
type Proposal struct {
	Rules   []Rule
	Remarks []Remark
	Drafts  []Table
	Seen    []Seen
	Preview []Preview
	More    int // rows that come of it beyond those of the preview
	Told    []Told
}

// Unsure is how many rows of Layouts it is unsure of.
func (p *Proposal) Unsure() int {
	n := 0
	for _, r := range p.Rules {
		if r.Sure == Unsure {
			n++
		}
	}
	return n
}
