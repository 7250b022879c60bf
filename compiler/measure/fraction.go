package measure

import "math/big"

// maxShown is how many decimals a message writes at most: those of a 64th.
const maxShown = 6

// ratio is a fraction as it was written.
type ratio struct {
	over, under *big.Int
	mixed       bool // behind a whole number
}

func (r ratio) String() string { return r.over.String() + "/" + r.under.String() }

// improper tells whether a fraction is more than 1 and could be written with smaller
// numbers, as nobody writes a fraction of an inch: 8/6, 12/8.
func (r ratio) improper() bool {
	return r.over.Cmp(r.under) > 0 && new(big.Int).GCD(nil, nil, r.over, r.under).Cmp(big.NewInt(1)) > 0
}

// tubular tells whether a fraction may be the outside and the inside diameter of a tube,
// of which at least half is left inside.
func (r ratio) tubular() bool {
	return r.over.Cmp(r.under) > 0 && new(big.Int).Lsh(r.under, 1).Cmp(r.over) >= 0
}

// fractional refuses fractions that were read and are none of the unit: rules have
// fractions of inches and feet, halves to 64ths, and everything else is two numbers with a
// sign between them.
func (p *parser) fractional(unit Unit) error {
	plain := p.options.Formula && unit == One
	for _, f := range p.fractions {
		switch {
		case plain:
		case f.mixed && (!rule(f.under) || unit != Inch && unit != Foot && unit != NoUnit):
			return p.unfractional(unit, "fractions are for inches and feet, with 2, 4, 8, 16, 32 or 64 below the line; write a decimal instead of %s", f)
		case !rule(f.under):
			return p.unfractional(unit, "fractions are for inches and feet, with 2, 4, 8, 16, 32 or 64 below the line; write one value, or a range such as %s-%s, or the same value in two units, as in 12.5 in (318 mm)",
				lesser(f.over, f.under), greater(f.over, f.under))
		case unit != Inch && unit != Foot && unit != NoUnit:
			return p.unfractional(unit, "fractions are for inches and feet; write %s instead of %s, or a range such as %s-%s, whichever is meant",
				Decimal(new(big.Rat).SetFrac(f.over, f.under), maxShown), f, lesser(f.over, f.under), greater(f.over, f.under))
		}
	}
	p.fractions = nil
	return nil
}

// lopsided tells whether one end of a range is a fraction and the other a whole number, as
// threads are written. No thread begins with 0.
func lopsided(low, high stated) bool {
	return low.parted && high.whole || high.parted && low.whole && low.value.Sign() != 0
}

// lopsided refuses such a range.
func (p *parser) lopsided(low, high stated, unit Unit) error {
	return p.unfractional(unit, "a fraction to a whole number is a thread or a slip; write a range with decimals, as in %s-%s, and threads under a header that states no unit",
		Decimal(low.value, maxShown), Decimal(high.value, maxDigits))
}

func (p *parser) unfractional(unit Unit, format string, args ...any) error {
	said, _ := p.faultf(format, args...).(*fault)
	said.kind, said.unit = ErrFraction, unit
	return said
}

// divided refuses fractions in sizes: outside and inside diameter parted by a stroke, and
// fractions of millimetres.
func (p *parser) divided(unit Unit) error {
	for _, f := range p.fractions {
		double := new(big.Int).Sub(f.over, f.under)
		wall := Decimal(new(big.Rat).SetFrac(double, big.NewInt(2)), maxShown)
		switch small := rule(f.under); {
		case f.tubular() && (f.improper() || !small || unit == Millimetre):
			return p.faultf("%s reads as outside and inside diameter, and a tube is written with its wall; write %sx%s mm for a tube of %s mm with %s mm inside", f, f.over, wall, f.over, f.under)
		case !small:
			return p.faultf("a fraction of an inch has 2, 4, 8, 16, 32 or 64 below the line; write it like 1/2 in, or in mm like 12.7 mm")
		case unit == Millimetre:
			return p.faultf("a fraction is one of inches; write %s in or %s mm, whichever is meant", f, Decimal(new(big.Rat).SetFrac(f.over, f.under), maxShown))
		}
	}
	p.fractions = nil
	return nil
}

func lesser(a, b *big.Int) *big.Int {
	if a.Cmp(b) <= 0 {
		return a
	}
	return b
}

func greater(a, b *big.Int) *big.Int {
	if a.Cmp(b) > 0 {
		return a
	}
	return b
}

func larger(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) > 0 {
		return a
	}
	return b
}
