package measure

import (
	"math/big"
	"strings"
)

// String gives the size in both systems, as written first: 1/2 in (12.7 mm), 8 mm
// (0.315 in), 1/2 in hose (12.7 mm).
func (s Size) String() string { return s.Words(s.Unit) }

// Words gives the size in both systems, the one asked for first.
func (s Size) Words(first Unit) string {
	if s.Num == nil {
		return s.Text
	}
	inches, mm := s.in(Inch), s.in(Millimetre)
	if first == Millimetre {
		inches, mm = mm, inches
	}
	if s.Of == Hose {
		inches += " hose"
	}
	return inches + " (" + mm + ")"
}

// in gives the size in one unit, with its wall.
func (s Size) in(u Unit) string {
	words := s.number(s.Num, u)
	if s.Wall != nil {
		words += " x " + s.number(s.Wall, u)
	}
	if u == Inch {
		return words + " in"
	}
	return words + " mm"
}

func (s Size) number(n *big.Rat, u Unit) string {
	v := s.mm(n)
	if u == Inch {
		v.Quo(v, inch)
		if f, ok := inchFraction(v); ok {
			return f
		}
	}
	return Decimal(v, 3)
}

// maxFraction is the finest fraction of an inch that rules and callipers show.
const maxFraction = 64

// inchFraction gives a fraction of an inch as one: 1/2, 1 1/4. Whole numbers too.
func inchFraction(v *big.Rat) (string, bool) {
	d := v.Denom()
	if !d.IsInt64() || d.Int64() > maxFraction || d.Int64()&(d.Int64()-1) != 0 {
		return "", false
	}
	if v.IsInt() {
		return v.Num().String(), true
	}
	whole, rest := new(big.Int).QuoRem(v.Num(), d, new(big.Int))
	f := rest.String() + "/" + d.String()
	if whole.Sign() == 0 {
		return f, true
	}
	return whole.String() + " " + f, true
}

// Decimal gives a number with at most so many digits behind the point, rounded half
// to even (NIST SP 811 (2008), B.7.1), without trailing zeros.
func Decimal(v *big.Rat, digits int) string {
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(digits)), nil)
	scaled := new(big.Rat).Mul(v, new(big.Rat).SetInt(scale))
	n, rest := new(big.Int).QuoRem(scaled.Num(), scaled.Denom(), new(big.Int))
	twice := rest.Abs(rest).Lsh(rest, 1)
	if c := twice.Cmp(scaled.Denom()); c > 0 || c == 0 && n.Bit(0) == 1 {
		n.Add(n, big.NewInt(int64(v.Sign())))
	}
	out := new(big.Rat).SetFrac(n, scale).FloatString(digits)
	if strings.Contains(out, ".") {
		out = strings.TrimRight(strings.TrimRight(out, "0"), ".")
	}
	return out
}
