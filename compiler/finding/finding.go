// Package finding is what the compiler tells people: findings with a code, a
// severity, the cells that cause them and, where they are about vehicles, exactly
// which.
package finding

import (
	"cmp"
	"math/big"
	"slices"

	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// Severity orders findings by what they ask of the reader.
type Severity uint8

const (
	Note    Severity = iota // worth knowing
	Warning                 // probably not meant
	Error                   // stops publishing
)

func (s Severity) String() string { return [...]string{"note", "warning", "error"}[s] }

// Code names a kind of finding. Codes are stable from release to release.
type Code string

// Compared tells whether a comparison tells findings of the code: an Accepted row for it may
// match nothing in a run without.
func (c Code) Compared() bool {
	return c == ProtectionLost || c == UnitChanged || c == ColumnPublished || c == ColumnSorted || c == CellDragged || c == TranslationStale
}

// Finding is one statement about the workbooks.
type Finding struct {
	Code     Code
	Severity Severity
	Message  string // one lower-case sentence in the words of the workbook
	Platform string
	Position string
	Part     string
	Region   *Packed // nil where it is not about vehicles
	Cells    []Cell  // those that cause it, most telling first
	Fix      string  // what to do, "" where the message says it
	Accepted *Accepted
	// Constant is the message without what changes when rows are inserted or added elsewhere:
	// addresses, row numbers and counts. "" is the message itself.
	Constant string
	// Follows counts what can only be there because of this and is not listed, by code.
	Follows []Follow
	// Known says that an earlier release has the finding too, on all these vehicles. It is
	// set where findings are held against one, and such a finding fails nothing.
	Known bool
	// Repair is what may be written in place of one of its cells, where one reading is left; nil
	// where a person must say.
	Repair *Repair
	// Meant are the texts that may have been typed into its first cell, as far as the stage that
	// found it can tell by itself. It is gone when the catalogue is bound.
	Meant []string
}

// Repair is a text to write in place of what a cell holds.
type Repair struct {
	At       cell.Place
	Old, New string
	Why      string // one lower-case sentence: why nothing else can be meant
}

// Copy gives a finding to which more may be added while the other stays as it is.
func (f *Finding) Copy() *Finding {
	out := *f
	out.Cells, out.Follows = slices.Clone(f.Cells), slices.Clone(f.Follows)
	return &out
}

// Cell is a place with a sentence of its own, "" where it needs none.
type Cell struct {
	cell.Place
	Note string
}

// Region is a set of configurations of one platform. Where Exact is false the set is
// too irregular to be counted, and only Example is given.
type Region struct {
	Exact          bool
	Configurations *big.Int
	OnTheRoad      *big.Rat
	Where          []model.Box
	Tight          []model.Box // Where by the vehicles in it; only comparing gives it
	Rest           *big.Int    // configurations that Where leaves out; nil for none
	Example        *model.Example
}

// Accepted says who accepted a finding, and where.
type Accepted struct {
	Reason, By, Until string
	Cell              cell.Place
}

// Kind describes a code for `explain` and the reference page.
type Kind struct {
	Code     Code
	Severity string // in words, since one code may have several
	Summary  string // one line: where it holds
	Doc      string // what it means and what to do
	Before   string // a few cells that cause it
	After    string // the same cells, mended
}

// At is a finding's cell without a sentence.
func At(places ...cell.Place) []Cell {
	cells := make([]Cell, len(places))
	for i, p := range places {
		cells[i].Place = p
	}
	return cells
}

// Sort puts findings in their one order: by code's severity (errors first), code,
// platform, position, cells, part and message; what is known comes after all that is
// new, and what is accepted last.
func Sort(fs []*Finding) { slices.SortStableFunc(fs, Compare) }

// Compare is the total order of findings.
func Compare(a, b *Finding) int {
	return cmp.Or(
		cmp.Compare(b2i(a.Accepted != nil), b2i(b.Accepted != nil)),
		cmp.Compare(b2i(a.Known), b2i(b.Known)),
		-cmp.Compare(a.Severity, b.Severity),
		cmp.Compare(a.Code, b.Code),
		cmp.Compare(a.Platform, b.Platform),
		cmp.Compare(a.Position, b.Position),
		slices.CompareFunc(a.Cells, b.Cells, func(x, y Cell) int { return cell.Compare(x.Place, y.Place) }),
		cmp.Compare(a.Part, b.Part),
		cmp.Compare(a.Message, b.Message),
		compareAccepted(a.Accepted, b.Accepted),
	)
}

func compareAccepted(a, b *Accepted) int {
	if a == nil || b == nil {
		return 0
	}
	return cell.Compare(a.Cell, b.Cell)
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// Summary counts findings by severity; what is accepted is counted there only, and so is
// what is known and not accepted.
type Summary struct {
	Errors, Warnings, Notes, Accepted, Known int
}

// Summarise counts.
func Summarise(fs []*Finding) Summary {
	var s Summary
	for _, f := range fs {
		switch {
		case f.Accepted != nil:
			s.Accepted++
		case f.Known:
			s.Known++
		case f.Severity == Error:
			s.Errors++
		case f.Severity == Warning:
			s.Warnings++
		default:
			s.Notes++
		}
	}
	return s
}

// Blocking counts the findings that keep a catalogue from being published.
func Blocking(fs []*Finding) int {
	n := 0
	for _, f := range fs {
		if f.Severity == Error && f.Code.Blocks() && f.Accepted == nil {
			n++
		}
	}
	return n
}

// Worst gives the highest severity that is neither accepted nor known; false where there
// is none.
func Worst(fs []*Finding) (Severity, bool) {
	worst, any := Note, false
	for _, f := range fs {
		if f.Accepted == nil && !f.Known {
			worst, any = max(worst, f.Severity), true
		}
	}
	return worst, any
}
