package lexicon

// Flaw is what sort of thing is wrong with a cell. Whoever tells it knows how grave it is, and
// under which code it is told.
type Flaw uint8

const (
	None       Flaw = iota // nothing is wrong
	Malformed              // it cannot be read as it stands
	Unitless               // a size has no unit
	Undeclared             // nothing declares a name
	NoPart                 // no part has a number
	Mangled                // no part has a number, since a spreadsheet program has changed it
)

// Fault is what is wrong with a cell. The zero value: nothing is.
type Fault struct {
	Flaw Flaw
	Says string // what is wrong and what to write instead; "" with Undeclared
	Name string // with Undeclared; what to say of it is known to the names it is not among (Missed)
}
