package formula

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"ferrule/compiler/measure"
)

// parser compiles a formula as it reads it.
type parser struct {
	*source
	names   *Names
	options measure.Options
	out     *Formula
	open    int // brackets
	waiting int // values on the stack of the program
}

// part is a part of the formula that has been compiled.
type part struct {
	dim      measure.Dimension
	unit     measure.Unit // in which its values are best shown; NoUnit: the usual one
	from, to int          // in the text
	first    int          // its first step in the program
	constant bool
}

// Parse compiles a formula. The error is a sentence that says what is wrong and what
// to write.
func Parse(text string, names *Names, o measure.Options) (*Formula, error) {
	o.Formula = true
	p := &parser{source: newSource(text), names: names, options: o, out: &Formula{}}
	p.out.Text = string(p.text)
	switch {
	case p.end():
		return nil, faultf("a formula is missing; write a name, a quantity such as 10 mm, or a calculation with both")
	case len(p.text) > maxText:
		return nil, faultf("the formula has more than %d characters; write it shorter", maxText)
	case p.is(0, '='):
		return nil, faultf("a formula here begins without =; write %q", p.slice(1, len(p.text)))
	}
	whole, err := p.sum()
	if err != nil {
		return nil, err
	}
	if !p.end() {
		return nil, faultf("a ) stands at the end of %q and no ( belongs to it", p.slice(0, p.at+1))
	}
	p.out.dim, p.out.unit = whole.dim, whole.unit
	return p.out, nil
}

// sum reads what is joined by + and -.
func (p *parser) sum() (part, error) {
	return p.joined(p.product, func(left, right part, o op) (part, error) {
		switch {
		case left.dim != right.dim:
			return left, p.unlike(left, right, o)
		case left.dim.Temperature != 0:
			return left, p.warm(left)
		}
		if left.unit == measure.NoUnit {
			left.unit = right.unit
		}
		return left, nil
	}, add, subtract)
}

// product reads what is joined by * and /.
func (p *parser) product() (part, error) {
	return p.joined(p.operand, func(left, right part, o op) (part, error) {
		unit := measure.NoUnit
		switch {
		case left.dim.Temperature != 0:
			return left, p.warm(left)
		case right.dim.Temperature != 0:
			return left, p.warm(right)
		case right.dim == measure.Count():
			unit = left.unit
		case left.dim == measure.Count() && o == multiply:
			unit = right.unit
		}
		dim := left.dim.Mul(right.dim)
		if o == divide {
			dim = left.dim.Quo(right.dim)
			if err := p.divides(right); err != nil {
				return left, err
			}
		}
		if !measured(dim) {
			return left, faultf("what comes of %s and %s is of no kind that anything is measured in", p.kind(left), p.kind(right))
		}
		return part{dim: dim, unit: unit}, nil
	}, multiply, divide)
}

// divides refuses a divisor that is always zero, and remembers one that may be.
func (p *parser) divides(by part) error {
	if !by.constant {
		p.out.divides = true
		return nil
	}
	f := Formula{program: p.out.program[by.first:], consts: p.out.consts}
	if v, err := f.Eval(nil); err != nil {
		return err // a divisor within it, which has been told
	} else if v.Low.Sign() <= 0 && v.High.Sign() >= 0 {
		return faultf("the formula divides by %s, which %s", p.slice(by.from, by.to), zero(v))
	}
	return nil
}

// joined reads operands of one rank, from the left.
func (p *parser) joined(operand func() (part, error), join func(left, right part, o op) (part, error), ops ...op) (part, error) {
	left, err := operand()
	if err != nil {
		return left, err
	}
	for {
		o, ok := p.operator(p.at)
		if !ok || !slices.Contains(ops, o) {
			return left, nil
		}
		p.at += 2
		p.blank()
		right, err := operand()
		if err != nil {
			return left, err
		}
		whole, err := join(left, right, o)
		if err != nil {
			return left, err
		}
		whole.from, whole.to, whole.first, whole.constant = left.from, right.to, left.first, left.constant && right.constant
		left = whole
		p.emit(step{o, right.from, right.to})
	}
}

// operand reads a name, a quantity, or what stands in brackets.
func (p *parser) operand() (part, error) {
	from, first := p.at, len(p.out.program)
	if p.end() || p.is(p.at, ')') {
		return part{}, p.missing()
	}
	if name, end, ok := p.name(p.names); ok {
		p.at = end
		return p.use(name, from)
	}
	if p.is(p.at, '(') {
		return p.bracket()
	}
	end := p.piece()
	if _, lone := sign(p.text[p.at]); lone && (end == p.at+1 || p.is(p.at+1, ' ')) {
		return part{}, p.missing()
	}
	text := p.slice(p.at, end)
	q, err := measure.ParseQuantityIn(text, measure.One, p.options)
	if err != nil {
		return part{}, p.unknown(text, err)
	}
	if q.Bound() != measure.Exactly {
		return part{}, faultf("%q says how far something may go, and a formula works with values; write it without %s", text, q.Bound())
	}
	p.at = end
	p.push(step{op: fixed, at: len(p.out.consts)})
	p.out.consts = append(p.out.consts, ValueOf(q))
	return part{q.Dimension(), q.Unit, from, end, first, true}, nil
}

// bracket reads what stands in brackets.
func (p *parser) bracket() (part, error) {
	from := p.at
	if p.open++; p.open > maxDepth {
		return part{}, faultf("more than %d brackets are open at once; write the formula in steps, as calculated values", maxDepth)
	}
	p.at++
	p.blank()
	in, err := p.sum()
	if err != nil {
		return in, err
	}
	p.blank()
	if !p.is(p.at, ')') {
		return in, faultf("the ( before %q is not closed; write ) where it ends", p.slice(from+1, len(p.text)))
	}
	p.at++
	p.open--
	in.from, in.to = from, p.at
	if !p.end() && !p.boundary(p.at) {
		return in, faultf("an operator is missing behind %q; write + - * or / with spaces around", p.slice(from, p.at))
	}
	return in, nil
}

// use compiles the use of a name.
func (p *parser) use(e entry, from int) (part, error) {
	first := len(p.out.program)
	switch {
	case e.other != "":
		return part{}, faultf("%s is the name of %s and of %s; give one of the two another name", e.Text, e.What, e.other)
	case e.Faulty:
		return part{}, ErrDead
	case e.Why != "":
		return part{}, faultf("%s", e.Why)
	case e.constant != nil:
		p.push(step{op: fixed, at: len(p.out.consts)})
		p.out.consts = append(p.out.consts, *e.constant)
		return part{e.Dim, measure.One, from, p.at, first, true}, nil
	}
	i := slices.Index(p.out.Uses, e.ID)
	if i < 0 {
		i = len(p.out.Uses)
		p.out.Uses = append(p.out.Uses, e.ID)
	}
	p.push(step{op: load, at: i})
	return part{e.Dim, e.Unit, from, p.at, first, false}, nil
}

func (p *parser) push(s step) {
	p.waiting++
	p.out.depth = max(p.out.depth, p.waiting)
	p.out.program = append(p.out.program, s)
}

func (p *parser) emit(s step) {
	p.waiting--
	p.out.program = append(p.out.program, s)
}

// starts tells whether a piece begins like a number.
func starts(text string) bool {
	text = strings.TrimLeft(text, "+-−±.,")
	r, _ := utf8.DecodeRuneInString(text)
	return unicode.IsNumber(r)
}

// maxPower bounds the powers of a dimension: no quantity of mechanics has more than a
// few, and many factors would otherwise lead beyond what a Dimension can hold.
const maxPower = 20

func measured(d measure.Dimension) bool {
	for _, power := range [...]int8{d.Length, d.Mass, d.Time, d.Angle} {
		if power > maxPower || power < -maxPower {
			return false
		}
	}
	return true
}
