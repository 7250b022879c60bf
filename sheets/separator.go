package sheets

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"ferrule/sheets/cell"
)

// signs may separate cells, in the order in which they are named.
var signs = [...]byte{',', ';', '\t'}

// What a byte of a text file may be to its reader: one of signs by its index, or
const (
	classQuote = len(signs) + iota
	classReturn
	classFeed
	classOther
)

// survey counts, for each sign, the cells that every row of a file has if that sign separates
// them. Two signs never differ in whether a quotation mark opens or closes: where one of them
// stands beside it, the file is in fault by the other, which then falls out.
type survey struct {
	tallies [len(signs)]tally
	living  int
	quoted  bool
	closing bool // the byte before was a quotation mark that may end a quoted cell
	held    bool // the row at hand has a byte
	before  int  // what the byte before was
	classes [256]int
}

// tally is what is known of one sign.
type tally struct {
	dead   bool // the file is in fault by it
	count  int  // of the row at hand
	first  int  // of the first row that is not empty, counted as signs
	rows   int
	uneven bool // rows differ
	ever   bool // it occurs
}

// fits tells whether all rows have as many cells, two at least.
func (t *tally) fits() bool { return !t.uneven && t.rows > 0 && t.first > 0 }

func (v *survey) begin() {
	v.living, v.before = len(signs), classFeed
	for c := range v.classes {
		v.classes[c] = classOf(byte(c))
	}
}

func (v *survey) block(b []byte) error {
	for i := 0; i < len(b); i++ {
		if v.quoted {
			end := bytes.IndexByte(b[i:], '"')
			if end < 0 {
				return nil
			}
			i += end
			v.quoted, v.closing = false, true
			continue
		}
		if n := v.others(b[i:]); n > 0 {
			i += n - 1
			continue
		}
		v.byte(v.classes[b[i]])
		if v.living == 0 {
			return errEnough
		}
	}
	return nil
}

// others takes bytes that mean nothing, as most do.
func (v *survey) others(b []byte) int {
	n := 0
	for !v.closing && n < len(b) && v.classes[b[n]] == classOther {
		n++
	}
	if n > 0 {
		v.held, v.before = true, classOther
	}
	return n
}

// byte takes one byte, of a class.
func (v *survey) byte(class int) {
	if v.closing {
		v.closing = false
		if class == classQuote {
			v.quoted = true
			return
		}
		v.only(class)
	}
	switch class {
	case classReturn:
		v.row()
	case classFeed:
		if v.before != classReturn {
			v.row()
		}
	case classQuote:
		v.only(v.before) // it opens a cell, and only at its beginning
		v.quoted, v.held = true, true
	case classOther:
		v.held = true
	default:
		v.held = true
		v.tallies[class].count++
	}
	v.before = class
}

func classOf(c byte) int {
	switch c {
	case ',':
		return 0
	case ';':
		return 1
	case '\t':
		return 2
	case '"':
		return classQuote
	case '\r':
		return classReturn
	case '\n':
		return classFeed
	}
	return classOther
}

// only lets those signs live by which a quotation mark beside this may stand.
func (v *survey) only(beside int) {
	if beside == classReturn || beside == classFeed {
		return
	}
	for i := range v.tallies {
		if t := &v.tallies[i]; i != beside && !t.dead {
			t.dead = true
			v.living--
		}
	}
}

// row ends a row. An empty line says nothing.
func (v *survey) row() {
	if !v.held {
		return
	}
	v.held = false
	for i := range v.tallies {
		t := &v.tallies[i]
		if t.ever = t.ever || t.count > 0; !t.dead {
			t.row()
		}
		t.count = 0
	}
}

func (t *tally) row() {
	if t.rows++; t.rows == 1 {
		t.first = t.count
	}
	if t.count != t.first && !t.uneven {
		t.uneven = true
	}
}

// end ends the file. A quotation mark that nothing closes is a fault whatever the sign.
func (v *survey) end() {
	if v.quoted {
		v.only(classOther)
	}
	v.row()
}

// choose gives the sign that separates the cells: the only one that occurs, or the only one by
// which all rows have as many cells. Where the file is in fault whatever the sign, it gives one
// whose reader finds the fault.
func (s *separated) choose(v *survey) (byte, error) {
	var fit, seen, dead []byte
	for i := range v.tallies {
		switch t := &v.tallies[i]; {
		case t.ever && !t.dead && t.fits():
			fit = append(fit, signs[i])
			fallthrough
		case t.ever || t.count > 0:
			seen = append(seen, signs[i])
		}
		if v.tallies[i].dead {
			dead = append(dead, signs[i])
		}
	}
	switch {
	case s.ending == ".tsv" && (slices.Contains(seen, '\t') || len(fit) == 0):
		return '\t', nil
	case s.ending == ".tsv":
		return 0, s.at(cell.Pos{}, "give it the ending .csv, or a first line "+declaring(fit...),
			"its name ends in .tsv, and it has no tab; its cells look separated by %s", signName(fit[0]))
	case len(fit) == 1:
		return fit[0], nil
	case len(fit) > 1:
		return 0, s.twoFit(v, fit)
	case len(seen) == 0:
		return ',', nil
	case len(seen) == 1:
		return seen[0], nil
	case len(dead) > 0:
		return best(v, dead), nil
	}
	return 0, s.noneFits(v, seen)
}

// best gives of signs by which a file is in fault the one with the most regular rows before it.
func best(v *survey, dead []byte) byte {
	return slices.MaxFunc(dead, func(a, b byte) int { return weight(v, a) - weight(v, b) })
}

func weight(v *survey, sign byte) int {
	t := &v.tallies[classOf(sign)]
	if t.fits() {
		return 1 + t.rows
	}
	return 0
}

const settle = "write a first line of its own that says which, %s (spreadsheet programs read it and show no row for it)"

func (s *separated) twoFit(v *survey, fit []byte) *Fault {
	var ways []string
	for _, sign := range fit {
		ways = append(ways, fmt.Sprintf("%s (%d in each row)", signName(sign), v.tallies[classOf(sign)].first+1))
	}
	return s.at(cell.Pos{}, fmt.Sprintf(settle, declaring(fit...)), "its cells may be separated by %s, and which is meant cannot be told", strings.Join(ways, " or by "))
}

func (s *separated) noneFits(v *survey, seen []byte) *Fault {
	var ways []string
	for _, sign := range seen {
		ways = append(ways, signName(sign))
	}
	return s.at(cell.Pos{}, fmt.Sprintf(settle, declaring(seen...)), "it holds %s, and by none of them do all rows have as many cells, so which of them separates cells cannot be told",
		strings.Join(ways, " and "))
}
