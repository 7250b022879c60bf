package formula

import (
	"math/big"
	"slices"
)

// Must says how the two sides of a rule must stand to one another.
type Must uint8

const (
	AtLeast Must = iota // the least left is not below the greatest right
	AtMost              // the greatest left is not above the least right
	EqualTo             // both sides have the same ends
)

func (m Must) String() string { return [...]string{"at least", "at most", "equal to"}[m] }

// Rule is what Left must be to Right. It is never changed.
type Rule struct {
	Left, Right *Formula
	Must        Must
	Uses        []int // the IDs of the names of both sides, each once

	left, right *Formula // with programs that load from Uses of the rule
}

// NewRule makes a rule of two formulas. The error says that they are of unlike
// dimensions.
func NewRule(left *Formula, must Must, right *Formula) (*Rule, error) {
	if left.dim != right.dim {
		return nil, faultf("the rule compares %s, %s, with %s, %s; only like can be compared",
			Article(left.dim), left.Text, Article(right.dim), right.Text)
	}
	r := &Rule{Left: left, Right: right, Must: must, Uses: slices.Clone(left.Uses)}
	for _, id := range right.Uses {
		if !slices.Contains(r.Uses, id) {
			r.Uses = append(r.Uses, id)
		}
	}
	r.left, r.right = left.from(r.Uses), right.from(r.Uses)
	return r, nil
}

// from gives the formula with a program that loads from another list of names.
func (f *Formula) from(uses []int) *Formula {
	out := *f
	out.program = slices.Clone(f.program)
	for i, s := range out.program {
		if s.op == load {
			out.program[i].at = slices.Index(uses, f.Uses[s.at])
		}
	}
	return &out
}

// Divides tells whether a side may have no value.
func (r *Rule) Divides() bool { return r.Left.divides || r.Right.divides }

// Verdict is what a rule comes to.
type Verdict struct {
	Left, Right Value
	Holds       bool
	Margin      *big.Rat // where it does not hold: by how much, in base units
}

// Judge works both sides out for the values of Uses. The error is Eval's.
func (r *Rule) Judge(values []Value) (Verdict, error) {
	left, err := r.left.Eval(values)
	if err != nil {
		return Verdict{}, err
	}
	right, err := r.right.Eval(values)
	if err != nil {
		return Verdict{}, err
	}
	v := Verdict{Left: left, Right: right, Margin: new(big.Rat)}
	switch r.Must {
	case AtLeast:
		v.Margin.Sub(right.High, left.Low)
	case AtMost:
		v.Margin.Sub(left.High, right.Low)
	case EqualTo:
		low, high := new(big.Rat).Sub(left.Low, right.Low), new(big.Rat).Sub(left.High, right.High)
		if v.Margin.Abs(low); high.Abs(high).Cmp(v.Margin) > 0 {
			v.Margin = high
		}
	}
	v.Holds = v.Margin.Sign() <= 0
	return v, nil
}

// Certain tells whether the rule is sure to hold for all values within those given,
// which may be hulls. It is quick, does not allocate, and false where it takes
// rationals to tell.
func (r *Rule) Certain(values []Value) bool {
	if r.Must == EqualTo {
		return false
	}
	var room [8]span
	left, right := r.left.near(values, room[:0]), r.right.near(values, room[:0])
	if r.Must == AtLeast {
		return left.low >= right.high
	}
	return left.high <= right.low
}
