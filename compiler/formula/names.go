package formula

import (
	"ferrule/compiler/measure"
	"ferrule/schema/word"
)

// Name is something that a formula can name.
type Name struct {
	Text string // as declared
	What string // what it is, in words: `a property of parts`
	ID   int    // the caller's own
	Dim  measure.Dimension
	Unit measure.Unit // in which it is mostly stated; NoUnit where nobody knows
	// Why says why no formula can use it, "" where one can.
	Why string
	// Faulty says that the formula of the name itself is at fault, so that what uses it
	// needs no telling.
	Faulty bool
}

// Names is what the formulas of a sheet can name. Names are compared with case folded
// and white space collapsed.
type Names struct {
	by   map[string]entry
	list []string // as declared, for the nearest one
}

type entry struct {
	Name
	other    string // what else is called so
	constant *Value // nil: the value differs from one use to the next
}

// Add declares a name. One that two different things have cannot be used.
func (n *Names) Add(name Name) { n.add(entry{Name: name}) }

func (n *Names) add(e entry) {
	key := word.Fold(e.Text)
	if old, twice := n.by[key]; twice {
		old.other = e.What
		n.by[key] = old
		return
	}
	n.by[key] = e
	n.list = append(n.list, e.Text)
}
