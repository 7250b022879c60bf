package formula

import (
	"errors"
	"fmt"
	"math/big"
)

// ErrUndefined is what errors.Is finds in the error about a formula that has no value
// for certain operands.
var ErrUndefined = errors.New("a formula has no value")

// undefined is a sentence that says why a formula has no value.
type undefined string

func (u undefined) Error() string { return string(u) }

// Is makes it answer to ErrUndefined.
func (u undefined) Is(target error) bool { return target == ErrUndefined }

// maxBits bounds the numerator and the denominator of a value. A formula of many
// products of calculated values, each of them one, would otherwise grow without end.
const maxBits = 4096

// Eval works the formula out for the values of Uses. The error is a sentence, for
// which errors.Is(err, ErrUndefined): the formula divides by what may be zero, or a
// number grows beyond reason.
func (f *Formula) Eval(values []Value) (Value, error) {
	stack := make([]Value, 0, f.depth)
	for _, s := range f.program {
		switch s.op {
		case load:
			stack = append(stack, values[s.at])
			continue
		case fixed:
			stack = append(stack, f.consts[s.at])
			continue
		}
		n := len(stack) - 2
		v, err := f.apply(s, stack[n], stack[n+1])
		if err != nil {
			return Value{}, err
		}
		stack = append(stack[:n], v)
	}
	return NewValue(stack[0].Low, stack[0].High, f.dim), nil
}

func (f *Formula) apply(s step, a, b Value) (Value, error) {
	var v Value
	switch s.op {
	case add:
		v = Value{Low: new(big.Rat).Add(a.Low, b.Low), High: new(big.Rat).Add(a.High, b.High)}
	case subtract:
		v = Value{Low: new(big.Rat).Sub(a.Low, b.High), High: new(big.Rat).Sub(a.High, b.Low)}
	case multiply:
		v = ends(a, b, (*big.Rat).Mul)
	case divide:
		if b.Low.Sign() <= 0 && b.High.Sign() >= 0 {
			return v, undefined(fmt.Sprintf("it divides by %s, which %s", f.part(s), zero(b)))
		}
		v = ends(a, b, (*big.Rat).Quo)
	}
	if large(v.Low) || large(v.High) {
		return v, undefined("its numbers grow too large")
	}
	return v, nil
}

// part gives the text of a divisor.
func (f *Formula) part(s step) string { return string([]rune(f.Text)[s.at:s.to]) }

func zero(v Value) string {
	if v.Single() {
		return "is 0"
	}
	return "may be 0"
}

// ends gives the least and the greatest of what four pairs of ends give.
func ends(a, b Value, o func(z, x, y *big.Rat) *big.Rat) Value {
	first := o(new(big.Rat), a.Low, b.Low)
	v := Value{Low: first, High: first}
	if a.Single() && b.Single() {
		return v
	}
	for _, p := range [][2]*big.Rat{{a.Low, b.High}, {a.High, b.Low}, {a.High, b.High}} {
		r := o(new(big.Rat), p[0], p[1])
		if r.Cmp(v.Low) < 0 {
			v.Low = r
		}
		if r.Cmp(v.High) > 0 {
			v.High = r
		}
	}
	return v
}

func large(r *big.Rat) bool { return r.Num().BitLen() > maxBits || r.Denom().BitLen() > maxBits }

// near gives an interval that is certain to hold what Eval gives, without allocating
// where stack is large enough.
func (f *Formula) near(values []Value, stack []span) span {
	for _, s := range f.program {
		switch s.op {
		case load:
			stack = append(stack, values[s.at].near)
			continue
		case fixed:
			stack = append(stack, f.consts[s.at].near)
			continue
		}
		n := len(stack) - 2
		a, b := stack[n], stack[n+1]
		switch s.op {
		case add:
			a = a.plus(b)
		case subtract:
			a = a.minus(b)
		case multiply:
			a = a.times(b)
		case divide:
			a = a.over(b)
		}
		stack = append(stack[:n], a)
	}
	return stack[0]
}
