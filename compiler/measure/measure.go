// Package measure reads sizes as exact rationals.
package measure

import "math/big"

// Of says what a size is measured on.
type Of uint8

const (
	Tube Of = iota // outside diameter
	Hose           // inside diameter
)

// Unit of length as written.
type Unit uint8

const (
	NoUnit Unit = iota
	Inch
	Millimetre
	// more may follow
)

// Size is a nominal size as a workbook states it.
type Size struct {
	Of   Of
	Unit Unit
	Num  *big.Rat // in Unit
	Wall *big.Rat // in Unit; nil where not stated
	Text string   // as written
}
