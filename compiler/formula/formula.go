// Package formula reads the arithmetic of Limits and Calculated sheets and works it
// out exactly.
//
// A formula is made of names (`Extended length`), quantities (`10 mm`, `1/2 in`, `3`),
// `+ - * /` with spaces around, and round brackets. It is compiled once: the
// dimensions are checked then, so that a length is never added to a force, whether or
// not a part or vehicle ever calls for it.
//
// Values are closed intervals of rationals in the base units of measure. A range or a
// tolerance counts with both its ends, and wherever a name stands it is taken at its
// worst by itself: `A - A` of 1 to 2 mm is -1 to 1 mm. So a result may be wider than
// it need be and is never too narrow. Nothing is rounded.
package formula

import (
	"ferrule/compiler/measure"
)

// Formula is a compiled formula. It is never changed, so that platforms can be worked
// on side by side.
type Formula struct {
	Text string // white space collapsed
	Uses []int  // the ID of each name in it, each once, in the order of the text

	dim     measure.Dimension
	unit    measure.Unit
	program []step
	consts  []Value
	depth   int  // how many values wait at most while it is worked out
	divides bool // by something that is not constant
}

// Dimension is what the formula gives.
func (f *Formula) Dimension() measure.Dimension { return f.dim }

// Divides tells whether the formula divides by what depends on a name, and so may have
// no value.
func (f *Formula) Divides() bool { return f.divides }

// step is one step of a program that works on a stack of values.
type step struct {
	op op
	at int // load and fixed: which value; divide: where the divisor begins in the text
	to int // divide: where it ends
}

type op uint8

const (
	load  op = iota // the value of a name, by its place in Uses
	fixed           // a value of consts
	add
	subtract
	multiply
	divide
)

// maxText bounds a formula, in characters; maxDepth its brackets.
const (
	maxText  = 500
	maxDepth = 20
)
