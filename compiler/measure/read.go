package measure

import (
	"math/big"
	"slices"
	"strings"
)

// ParseQuantity reads a measured value: `12.7 mm`, `1 1/2 in`, `8 ft 6 in`, `20 lb 4 oz`,
// `65 lb·ft`, `-1.5°`, `40 %`; a range (`12.0-12.4 in`, `12 to 13 in`); a tolerance
// (`10 mm ±0.1`, `12 N/mm ±5 %`, `10 mm +0.2/-0.1`); a bound (`max 120 psi`). The value in
// another unit may follow in brackets if it agrees within what both are rounded to. The
// error is a sentence that says what to write; errors.Is finds ErrNoValue where the text
// does not begin like a value, or is too long for one, ErrUnitless where only the unit is
// missing, ErrDisagree where the two units do not agree, and ErrFraction where two numbers
// are no fraction and no range.
func ParseQuantity(text string, o Options) (Quantity, error) {
	p, err := newParser(text, o, subject{noun: "a measured value", example: "12.5 in or 318 mm", ranges: true})
	if err != nil {
		return Quantity{}, err
	}
	bound := p.limiting()
	p.diameter()
	if signed := p.at('-') || p.at('+') || p.at('±'); !p.at(number) && !(signed && p.ahead(number)) {
		return Quantity{}, &fault{sentence: quoted(p.source) + ": a measured value begins with a number; write " + p.about.example, kind: ErrNoValue}
	}
	e, err := p.first()
	if err != nil {
		return Quantity{}, err
	}
	if bound, err = p.limited(bound, e); err != nil {
		return Quantity{}, err
	}
	if (p.at('(') || p.at('[')) && e.unit != NoUnit {
		if err := p.secondExtent(e); err != nil {
			return Quantity{}, err
		}
		if bound, err = p.limited(bound, e); err != nil {
			return Quantity{}, err
		}
	}
	switch {
	case !p.at(end):
		return Quantity{}, p.unknown()
	case e.unit == NoUnit:
		return Quantity{}, &fault{sentence: quoted(p.source) + " has no unit; write it behind the number, as in " + p.withEither("mm", "lb"), kind: ErrUnitless}
	case p.round && e.unit.Dimension() != Inch.Dimension():
		return Quantity{}, p.faultf("a diameter is a length; write it in inches or millimetres, as in Ø12 mm")
	}
	q := e.quantity()
	q.Text, q.bound = p.source, bound
	return q, nil
}

// first reads what counts, with the unit of the header where the text states none.
func (p *parser) first() (extent, error) {
	e, err := p.extent()
	if err != nil {
		return e, err
	}
	if e.unit == NoUnit {
		e.unit = p.options.unit
	}
	if err := p.fractional(e.unit); err != nil {
		return e, err
	}
	if !sane(e.low.value) || !sane(e.high.value) || !sane(new(big.Rat).Sub(e.high.value, e.low.value)) {
		return e, p.faultf("a measured value is at most a million million, and not below a thousand-millionth; write it in a unit of another size")
	}
	return e, nil
}

// diameter reads the sign of one before a number: Ø12 mm.
func (p *parser) diameter() {
	if p.at(word) && p.ahead(number) && slices.Contains([]string{"ø", "dia", "diameter"}, p.peek(0).text) {
		p.next()
		p.round = true
	}
}

// ParseQuantityIn is ParseQuantity for a cell under a header that states a unit: it holds
// where the text states none of its own. With One, a plain number is a count.
func ParseQuantityIn(text string, unit Unit, o Options) (Quantity, error) {
	o.unit = unit
	return ParseQuantity(text, o)
}

// sane tells whether a number may be that of a measurement. It keeps what is printed
// within what is read.
func sane(r *big.Rat) bool {
	abs := new(big.Rat).Abs(r)
	return abs.Sign() == 0 || abs.Cmp(big.NewRat(1, 1e9)) >= 0 && abs.Cmp(big.NewRat(1e12, 1)) <= 0
}

// secondExtent reads the value in another unit, in brackets. Only the first statement
// counts, and the second must agree.
func (p *parser) secondExtent(e extent) error {
	closing := map[kind]kind{'(': ')', '[': ']'}[p.next().kind]
	other, err := p.extent()
	switch {
	case err != nil:
		return err
	case !p.accept(closing):
		return p.faultf("a bracket is not closed; write 12.5 in (318 mm)")
	case other.unit == NoUnit || other.unit.Dimension() != e.unit.Dimension():
		return p.faultf("in brackets belongs the same value in another unit, as in 12.5 in (318 mm)")
	}
	if err := p.fractional(other.unit); err != nil {
		return err
	}
	if e.agrees(other) {
		return nil
	}
	first := e.quantity()
	return &fault{quoted(p.source) + ": " + first.own() + " is " + first.converted(other.unit) + "; write the one that is meant", ErrDisagree, e.unit}
}

// unknown names the first thing that does not belong in a measured value.
func (p *parser) unknown() error {
	t := p.next()
	switch {
	case t.text == "ton" || t.text == "tons":
		return p.faultf("there are several tons; write t for 1000 kg, or 2000 lb for a short ton")
	case t.text == "c" || t.text == "f":
		return p.faultf("%s may stand for several units; write °%s for a temperature", strings.ToUpper(t.text), strings.ToUpper(t.text))
	case slices.Contains([]string{"tube", "tubing", "hose", "pipe", "line"}, t.text):
		return p.faultf("a measured value is a number and its unit alone; leave %s out, as in 3/8 in (a Line size may have it)", t.text)
	case t.kind == word || t.kind == number:
		return p.faultf("%s is not understood here; write a number and its unit, such as 12.5 in, 318 mm or 12-12.5 in", t.text)
	}
	return p.faultf("the sign %s is not understood here; write a number and its unit, such as 12.5 in, 318 mm or 12-12.5 in", t.text)
}
