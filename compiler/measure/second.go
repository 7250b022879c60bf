package measure

import "math/big"

// second reads the other system in brackets, as in `1/2 in (12.7 mm)`. It must say
// the same size to the digits that it gives; only the first statement counts.
func (p *parser) second(s Size) error {
	closing := map[kind]kind{'(': ')', '[': ']'}[p.next().kind]
	other, half, err := p.dimensions()
	switch {
	case err != nil:
		return err
	case !p.accept(closing):
		return p.faultf("a bracket is not closed; write 1/2 in (12.7 mm)")
	case other.Wall != nil || other.Unit == NoUnit || s.Unit == NoUnit:
		return p.faultf("in brackets belongs the same diameter in the other unit, as in 1/2 in (12.7 mm)")
	}
	if err := p.divided(other.Unit); err != nil {
		return err
	}
	exact := Convert(s.Num, s.Unit, other.Unit)
	off := new(big.Rat).Sub(exact, other.Num)
	switch off.Abs(off); {
	case off.Cmp(half) > 0:
		return p.faultf("%s and %s are not the same size; write the one that is meant",
			plain(s.Num, s.Unit), plain(other.Num, other.Unit))
	case p.another(s, other):
		return p.faultf("%s and %s are two sizes that do not fit each other; write the one that is meant",
			plain(s.Num, s.Unit), plain(other.Num, other.Unit))
	}
	return nil
}

// conversion is how far off a rounded inch may be, in percent: String writes three
// decimals, and the least nominal size is 1/8 in. The nearest two nominal tubes are
// 0.78 % apart.
func conversion() *big.Rat { return big.NewRat(4, 1000) }

// another tells whether the size in brackets is no rounding of s but a nominal size
// of its own, as in 5/16 in (8 mm).
func (p *parser) another(s, other Size) bool {
	if p.hose || p.inside {
		s.Line, other.Line = Hose, Hose
	}
	off := new(big.Rat).Mul(s.MM(), conversion())
	return Standard().Has(other) && gap(s, other).Cmp(off) > 0
}

func power10(n int) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }
