package shown

import (
	"math/big"
	"slices"
	"strconv"
	"strings"
)

// fraction lays out a whole number and a fraction, `# ?/?`, or a fraction alone.
func fraction(l Look, section []piece, value *big.Rat) (Look, bool) {
	at := slices.IndexFunc(section, func(p piece) bool { return p.kind == over })
	front, back := section[:at], section[at+1:]
	below, ok := denominator(back)
	if !ok || slices.ContainsFunc(front, func(p piece) bool { return p.kind != digit && p.kind != sign }) {
		return l, false
	}
	// The numerator's places are those next to the line; a whole number may stand
	// before them, apart.
	top := len(front)
	for top > 0 && front[top-1].kind == digit {
		top--
	}
	mixed := count(front[:top]) > 0
	if top == len(front) {
		return l, false
	}
	whole := new(big.Int)
	part := value
	if mixed {
		whole.Quo(value.Num(), value.Denom())
		part = new(big.Rat).Sub(value, new(big.Rat).SetInt(whole))
	}
	n, d := near(part, below)
	if mixed && n.Cmp(d) == 0 {
		whole.Add(whole, n.Div(n, d))
		n.SetInt64(0)
	}
	l.Fraction = true
	l.Value = new(big.Rat).SetFrac(n, d)
	l.Value.Add(l.Value, new(big.Rat).SetInt(whole))
	l.Text = spell(mixed, whole, n, d)
	return l, true
}

func spell(mixed bool, whole, n, d *big.Int) string {
	switch {
	case mixed && n.Sign() == 0:
		return whole.String()
	case !mixed || whole.Sign() == 0:
		return n.String() + "/" + d.String()
	}
	return whole.String() + " " + n.String() + "/" + d.String()
}

// bound is what a format says of denominators: the one that it states, or the largest
// that there is room for.
type bound struct {
	most  int64
	fixed bool
}

func denominator(section []piece) (bound, bool) {
	var b bound
	places := ""
	for _, p := range section {
		switch p.kind {
		case digit, fixed:
			b.fixed = b.fixed || p.kind == fixed
			places += p.text
		case sign:
			if strings.TrimSpace(p.text) != "" {
				return b, false
			}
		default:
			return b, false
		}
	}
	if len(places) < 1 || len(places) > 5 {
		return b, false
	}
	if b.fixed {
		n, err := strconv.ParseInt(strings.NewReplacer("#", "", "?", "").Replace(places), 10, 64)
		b.most = n
		return b, err == nil && n > 0
	}
	b.most, _ = strconv.ParseInt(strings.Repeat("9", len(places)), 10, 64)
	return b, true
}

// near gives the fraction that is shown for a number: the nearest one whose denominator
// has room, of two the one with the smaller denominator.
func near(value *big.Rat, b bound) (n, d *big.Int) {
	if b.fixed {
		d = big.NewInt(b.most)
		scaled := new(big.Rat).Mul(value, new(big.Rat).SetInt(d))
		n, _ = new(big.Int).SetString(scaled.FloatString(0), 10)
		return n, d
	}
	most := big.NewInt(b.most)
	p0, q0, p1, q1 := big.NewInt(0), big.NewInt(1), big.NewInt(1), big.NewInt(0)
	rest := new(big.Rat).Set(value)
	for {
		a := new(big.Int).Quo(rest.Num(), rest.Denom())
		p2, q2 := along(p0, p1, a), along(q0, q1, a)
		if q2.Cmp(most) > 0 {
			// A step that goes part of the way may come nearer than the last whole one.
			k := new(big.Int).Quo(new(big.Int).Sub(most, q0), q1)
			p2, q2 = along(p0, p1, k), along(q0, q1, k)
			if off(value, p2, q2).Cmp(off(value, p1, q1)) < 0 {
				return p2, q2
			}
			return p1, q1
		}
		p0, q0, p1, q1 = p1, q1, p2, q2
		if rest.Sub(rest, new(big.Rat).SetInt(a)); rest.Sign() == 0 {
			return p1, q1
		}
		rest.Inv(rest)
	}
}

// along is a step of a continued fraction.
func along(before, last, by *big.Int) *big.Int {
	return new(big.Int).Add(before, new(big.Int).Mul(by, last))
}

func off(value *big.Rat, n, d *big.Int) *big.Rat {
	x := new(big.Rat).Sub(value, new(big.Rat).SetFrac(n, d))
	return x.Abs(x)
}
