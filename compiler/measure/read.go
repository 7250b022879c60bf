package measure

import "math/big"

// ParseQuantity reads a measured value: `12.7 mm`, `1 1/2 in`, `8 ft 6 in`, `65 lb·ft`,
// `-1.5°`, `40 %`; a range (`12.0-12.4 in`, `12 to 13 in`); a tolerance (`10 mm ±0.1`,
// `12 N/mm ±5 %`, `10 mm +0.2/-0.1`). The value in another unit may follow in round
// brackets if it agrees within what both are rounded to. The error is a sentence that
// says what to write; errors.Is finds ErrUnitless where only the unit is missing, and
// ErrDisagree where the two units do not agree.
func ParseQuantity(text string, o Options) (Quantity, error) {
	p, err := newParser(text, o, subject{noun: "a measured value", example: "12.5 in or 318 mm", ranges: true})
	if err != nil {
		return Quantity{}, err
	}
	e, err := p.extent()
	if err != nil {
		return Quantity{}, err
	}
	if e.unit == NoUnit {
		e.unit = o.unit
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

// extent is a value or a range as it is read.
type extent struct {
	low, high stated
	unit      Unit
	form      form
}

func (e extent) quantity() Quantity {
	return Quantity{Low: e.low.value, High: e.high.value, Unit: e.unit, form: e.form, low: e.low.wording(), high: e.high.wording()}
}

func (s stated) wording() wording { return wording{s.digits, s.whole} }

// extent reads one value, two ends, or a value and its tolerance.
func (p *parser) extent() (extent, error) {
	var e extent
	var err error
	if p.at('±') {
		e.low = exactly(new(big.Rat)) // ±2°: around nothing
	} else if e.low, e.unit, err = p.length(); err != nil {
		return e, err
	}
	e.high = e.low
	switch {
	case p.at('±'), p.at('+'):
		return p.tolerance(e)
	case p.at('-'), p.at(word) && p.peek(0).text == "to":
		return p.span(e)
	}
	return e, nil
}

// length reads a number with its sign and, if it has one, its unit. Feet may be followed
// by inches.
func (p *parser) length() (stated, Unit, error) {
	minus := p.accept('-')
	if !minus {
		p.accept('+')
	}
	n, err := p.number()
	if err != nil {
		return n, NoUnit, err
	}
	unit := p.unit()
	if unit == Foot && p.at(number) {
		inches, err := p.number()
		if err != nil {
			return n, unit, err
		}
		if p.unit() != Inch || !n.value.IsInt() || inches.value.Cmp(big.NewRat(12, 1)) >= 0 {
			return n, unit, p.faultf("behind feet belong inches, less than 12 of them; write 8 ft 6 in or 102 in")
		}
		inches.value = new(big.Rat).Add(inches.value, Convert(n.value, Foot, Inch))
		inches.digits, n, unit = 0, inches, Inch
	}
	if minus {
		n.value = new(big.Rat).Neg(n.value)
	}
	return n, unit, nil
}

// span reads the second end of a range.
func (p *parser) span(e extent) (extent, error) {
	p.next()
	high, unit, err := p.length()
	switch {
	case err != nil:
		return e, err
	case e.unit != NoUnit && unit != NoUnit && e.unit != unit:
		return e, p.faultf("the ends have different units; write both in one, as in 12-12.5 in")
	case e.low.value.Cmp(high.value) > 0:
		return e, p.faultf("this runs downwards; write the smaller end first, as in 12-12.5 in")
	case e.low.value.Cmp(high.value) < 0:
		e.form = span
	}
	e.high, e.unit = high, max(e.unit, unit)
	return e, nil
}

// tolerance reads `±0.1`, `±5 %` or `+0.2/-0.1` behind a value, with its unit before or
// behind.
func (p *parser) tolerance(e extent) (extent, error) {
	e.form = tolerance
	both := p.next().kind == '±'
	up, err := p.deviation(&e)
	if err != nil {
		return e, err
	}
	down := up
	if !both {
		e.form = span
		p.accept('/')
		if !p.accept('-') {
			return e, p.faultf("behind + belongs - as well; write ±0.1 or +0.2/-0.1")
		}
		if down, err = p.deviation(&e); err != nil {
			return e, err
		}
	}
	middle := e.low
	e.high, e.low = middle.plus(up), middle.plus(down.negative())
	if e.low.value.Cmp(e.high.value) == 0 {
		e.form = single
	}
	return e, nil
}

// deviation reads how far a value may be off, in its own unit or in percent of it.
func (p *parser) deviation(e *extent) (stated, error) {
	d, err := p.number()
	if err != nil {
		return d, err
	}
	switch unit := p.unit(); {
	case unit == Percent && e.unit != Percent && e.unit != NoUnit:
		share := new(big.Rat).Quo(e.high.value, big.NewRat(100, 1))
		share.Abs(share)
		d.value, d.half = share.Mul(share, d.value), new(big.Rat)
	case unit != NoUnit && e.unit != NoUnit && unit != e.unit:
		return d, p.faultf("value and tolerance have different units; write both in one, as in 10 mm ±0.1")
	default:
		e.unit = max(e.unit, unit)
	}
	return d, nil
}

func (s stated) plus(o stated) stated {
	s.value = new(big.Rat).Add(s.value, o.value)
	s.half = new(big.Rat).Add(s.half, o.half)
	return s
}

func (s stated) negative() stated {
	s.value = new(big.Rat).Neg(s.value)
	return s
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
