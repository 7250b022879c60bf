package measure

import "math/big"

// mostApart is how far apart two statements of one value may be, in percent of the first,
// however they were rounded: further apart, one of them is wrong.
const mostApart = 6

// agrees tells whether two statements in units of one dimension may be of the same value:
// whether what the first may have been before it was rounded meets what the second may have
// been, which tables round to tens or hundreds.
func (e extent) agrees(o extent) bool {
	if e.form == tolerance {
		// Beside a middle, an end near nothing says little: 1 ±1 mm.
		most := larger(new(big.Rat).Abs(e.low.value), new(big.Rat).Abs(e.high.value))
		return e.meets(e.low, o.low, o.unit, most) && e.meets(e.high, o.high, o.unit, most)
	}
	return e.meets(e.low, o.low, o.unit, e.low.value) && e.meets(e.high, o.high, o.unit, e.high.value)
}

// meets compares one end; of is what percents are of.
func (e extent) meets(a, b stated, as Unit, of *big.Rat) bool {
	off := new(big.Rat).Sub(Convert(a.value, e.unit, as), b.value)
	room := difference(a.half, e.unit, as)
	if as.zero() != nil { // a percentage of a temperature means nothing
		return off.Abs(off).Cmp(room.Add(room, smaller(b.coarse, big.NewRat(mostDegrees, 1)))) <= 0
	}
	most := difference(new(big.Rat).Mul(of, big.NewRat(mostApart, 100)), e.unit, as)
	return off.Abs(off).Cmp(room.Add(room, b.coarse)) <= 0 && off.Cmp(most.Abs(most)) <= 0
}

// mostDegrees is how far a temperature may have been rounded: to tens.
const mostDegrees = 5

func smaller(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) < 0 {
		return a
	}
	return b
}
