package measure

import "math/big"

// mostApart is how far apart two statements of one value may be, in percent of the first,
// however they were rounded: further apart, one of them is wrong.
const mostApart = 6

// agrees tells whether two statements in units of one dimension may be of the same value:
// whether what the first may have been before it was rounded meets what the second may have
// been, which tables round to tens or hundreds.
func (e extent) agrees(o extent) bool {
	near := func(a, b *big.Rat) bool { return o.unit.zero() != nil || nearly(Convert(a, e.unit, o.unit), b) }
	if e.form == tolerance {
		// How far off a value may be is often one digit: ±0.2. What it is off from must agree.
		middle, _ := e.quantity().middle()
		other, _ := o.quantity().middle()
		return e.meets(e.low, o.low, o.unit) && e.meets(e.high, o.high, o.unit) && (near(middle, other) || other.Sign() == 0)
	}
	return e.meets(e.low, o.low, o.unit) && e.meets(e.high, o.high, o.unit) && near(e.low.value, o.low.value) && near(e.high.value, o.high.value)
}

// nearly tells whether two numbers of one unit are no further apart than one value can be.
func nearly(a, b *big.Rat) bool {
	off, most := new(big.Rat).Sub(a, b), new(big.Rat).Mul(a, big.NewRat(mostApart, 100))
	return off.Abs(off).Cmp(most.Abs(most)) <= 0
}

// meets compares one end by its digits.
func (e extent) meets(a, b stated, as Unit) bool {
	off := new(big.Rat).Sub(Convert(a.value, e.unit, as), b.value)
	room, coarse := difference(a.half, e.unit, as), b.coarse
	if as.zero() != nil {
		coarse = smaller(coarse, big.NewRat(mostDegrees, 1)) // a percentage of a temperature means nothing
	}
	return off.Abs(off).Cmp(room.Add(room, coarse)) <= 0
}

// mostDegrees is how far a temperature may have been rounded: to tens.
const mostDegrees = 5

func smaller(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) < 0 {
		return a
	}
	return b
}
