package model

import "math/big"

// Number is an exact number as a workbook states it.
type Number struct {
	*big.Rat // nil: not stated
}

// Stated tells whether the cell held a number.
func (n Number) Stated() bool { return n.Rat != nil }
