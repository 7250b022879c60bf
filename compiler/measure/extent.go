package measure

import "math/big"

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
	} else if e.low, e.unit, err = p.amount(); err != nil {
		return e, err
	}
	e.high = e.low
	switch {
	case p.at('±'), p.at('+'), p.downFirst():
		return p.tolerance(e)
	case p.at('-'), p.at(word) && p.peek(0).text == "to":
		return p.span(e)
	}
	return e, nil
}

// amount reads a number with its sign and, if it has one, its unit. Feet may be followed
// by inches, pounds by ounces.
func (p *parser) amount() (stated, Unit, error) {
	minus := p.accept('-')
	if !minus {
		p.accept('+')
	}
	n, err := p.number()
	if err != nil {
		return n, NoUnit, err
	}
	n, unit, err := p.composed(n, p.hyphened(p.unit))
	if err != nil {
		return n, unit, err
	}
	if minus {
		n.value = new(big.Rat).Neg(n.value)
	}
	return n, unit, nil
}

// span reads the second end of a range.
func (p *parser) span(e extent) (extent, error) {
	p.next()
	high, unit, err := p.amount()
	switch {
	case err != nil:
		return e, err
	case e.unit != NoUnit && unit != NoUnit && e.unit != unit:
		return e, p.faultf("the ends have different units; write both in one, as in 12-12.5 in")
	case lopsided(e.low, high) && (e.unit == NoUnit || unit == NoUnit):
		return e, p.lopsided(e.low, high, max(e.unit, unit))
	case e.low.value.Cmp(high.value) > 0:
		return e, p.faultf("this runs downwards; write the smaller end first, as in 12-12.5 in")
	case e.low.value.Cmp(high.value) < 0:
		e.form = span
	}
	e.high, e.unit = high, max(e.unit, unit)
	return e, nil
}

// tolerance reads `±0.1`, `±5 %`, `+0.2/-0.1` or `-0.1/+0.2` behind a value, with its unit
// before or behind.
func (p *parser) tolerance(e extent) (extent, error) {
	e.form = tolerance
	sign := p.next().kind
	up, err := p.deviation(&e)
	if err != nil {
		return e, err
	}
	down := up
	if other, one := map[kind]kind{'+': '-', '-': '+'}[sign]; one {
		e.form = span
		p.accept('/')
		if !p.accept(other) {
			return e, p.faultf("behind %c belongs %c as well; write ±0.1 or +0.2/-0.1", sign, other)
		}
		if down, err = p.deviation(&e); err != nil {
			return e, err
		}
	}
	if sign == '-' {
		up, down = down, up
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
	of := e.unit
	if of == NoUnit {
		of = p.options.unit
	}
	switch unit := p.unit(); {
	case unit == Percent && of.zero() != nil:
		return d, p.faultf("a temperature has no percent; write how many degrees, as in 90 °C ±5")
	case unit == Percent && of != Percent && of != NoUnit:
		share := new(big.Rat).Quo(e.high.value, big.NewRat(100, 1))
		share.Abs(share)
		d.value, d.half, d.coarse = share.Mul(share, d.value), new(big.Rat), new(big.Rat)
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
	s.coarse = new(big.Rat).Add(s.coarse, o.coarse)
	return s
}

func (s stated) negative() stated {
	s.value = new(big.Rat).Neg(s.value)
	return s
}
