package measure

import "math/big"

// ParseQuantity reads a measured value: `12.7 mm`, `1 1/2 in`, `8 ft 6 in`, `65 lb·ft`,
// `-1.5°`, `40 %`; a range (`12.0-12.4 in`, `12 to 13 in`); a tolerance (`10 mm ±0.1`,
// `12 N/mm ±5 %`, `10 mm +0.2/-0.1`). The value in another unit may follow in round
// brackets if it agrees within what both are rounded to. The error is a sentence that
// says what to write; errors.Is finds ErrNoValue where the text does not begin like a
// value, or is too long for one, ErrUnitless where only the unit is missing, and
// ErrDisagree where the two units do not agree.
func ParseQuantity(text string, o Options) (Quantity, error) {
	p, err := newParser(text, o, subject{noun: "a measured value", example: "12.5 in or 318 mm", ranges: true})
	if err != nil {
		return Quantity{}, err
	}
	if signed := p.at('-') || p.at('+') || p.at('±'); !p.at(number) && !(signed && p.ahead(number)) {
		return Quantity{}, &fault{quoted(p.source) + ": a measured value begins with a number; write " + p.about.example, ErrNoValue}
	}
	e, err := p.extent()
	if err != nil {
		return Quantity{}, err
	}
	if e.unit == NoUnit {
		e.unit = o.unit
	}
	if !sane(e.low.value) || !sane(e.high.value) || !sane(new(big.Rat).Sub(e.high.value, e.low.value)) {
		return Quantity{}, p.faultf("a measured value is at most a million million, and not below a thousand-millionth; write it in a unit of another size")
	}
	if p.at('(') && e.unit != NoUnit {
		if err := p.secondExtent(e); err != nil {
			return Quantity{}, err
		}
	}
	switch {
	case !p.at(end):
		return Quantity{}, p.unknown()
	case e.unit == NoUnit:
		return Quantity{}, &fault{quoted(p.source) + " has no unit; write it behind the number, as in " + p.with("mm") + " or " + p.with("lb"), ErrUnitless}
	}
	q := e.quantity()
	q.Text = p.source
	return q, nil
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
	p.next()
	other, err := p.extent()
	switch {
	case err != nil:
		return err
	case !p.accept(')'):
		return p.faultf("a bracket is not closed; write 12.5 in (318 mm)")
	case other.unit == NoUnit || other.unit.Dimension() != e.unit.Dimension():
		return p.faultf("in brackets belongs the same value in another unit, as in 12.5 in (318 mm)")
	case agree(e.low, e.unit, other.low, other.unit) && agree(e.high, e.unit, other.high, other.unit):
		return nil
	}
	first := e.quantity()
	return &fault{quoted(p.source) + ": " + first.own() + " is " + first.converted(other.unit) + "; write the one that is meant", ErrDisagree}
}

// agree tells whether two statements in units of one dimension may be of the same value:
// whether what the one may have been before it was rounded meets what the other may have
// been.
func agree(a stated, in Unit, b stated, as Unit) bool {
	off := new(big.Rat).Sub(Convert(a.value, in, as), b.value)
	room := Convert(a.half, in, as)
	return off.Abs(off).Cmp(room.Add(room, b.half)) <= 0
}

// unknown names the first thing that does not belong in a measured value.
func (p *parser) unknown() error {
	t := p.next()
	switch {
	case t.text == "ton" || t.text == "tons":
		return p.faultf("there are several tons; write t for 1000 kg, or 2000 lb for a short ton")
	case t.kind == word || t.kind == number:
		return p.faultf("%s is not understood here; write a number and its unit, such as 12.5 in, 318 mm or 12-12.5 in", t.text)
	}
	return p.faultf("the sign %s is not understood here; write a number and its unit, such as 12.5 in, 318 mm or 12-12.5 in", t.text)
}
