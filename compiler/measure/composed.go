package measure

import "math/big"

// hyphened reads a unit that a hyphen joins to its number: 5-in, 3/8-inch.
func (p *parser) hyphened(unit func() Unit) Unit {
	if !p.at('-') || p.ahead(number) {
		return unit()
	}
	before := p.tokens
	p.next()
	if u := unit(); u != NoUnit {
		return u
	}
	p.tokens = before
	return NoUnit
}

// composed reads the inches behind feet (5'2", 5'-3", 8 ft 6 in) and the ounces behind
// pounds (20 lb 4 oz).
func (p *parser) composed(n stated, unit Unit) (stated, Unit, error) {
	switch {
	case unit == Foot && (p.at(number) || p.at('-') && p.ahead(number)):
		return p.inches(n)
	case unit == Pound && p.at(number):
		ounces, ok := p.rest(n, Ounce, 16)
		if !ok {
			return n, unit, p.faultf("behind pounds belong ounces, less than 16 of them; write 20 lb 4 oz or 20.25 lb")
		}
		ounces.value = new(big.Rat).Add(n.value, Convert(ounces.value, Ounce, Pound))
		ounces.half, ounces.coarse = Convert(ounces.half, Ounce, Pound), Convert(ounces.half, Ounce, Pound)
		return ounces, Pound, nil
	}
	return n, unit, nil
}

// inches reads what stands behind feet. A hyphen there parts the ends of a range as well,
// but no range runs from feet to less than twelve inches.
func (p *parser) inches(feet stated) (stated, Unit, error) {
	before := p.tokens
	joined := p.accept('-')
	inches, ok := p.rest(feet, Inch, 12)
	switch {
	case ok:
		inches.value = new(big.Rat).Add(inches.value, Convert(feet.value, Foot, Inch))
		return inches, Inch, nil
	case joined:
		p.tokens = before
		return feet, Foot, nil
	}
	return feet, Foot, p.faultf("behind feet belong inches, less than 12 of them; write 8 ft 6 in or 102 in")
}

// rest reads a number of a smaller unit behind a whole number of a greater one. It reports
// false where there is none.
func (p *parser) rest(of stated, unit Unit, below int64) (stated, bool) {
	fractions := p.fractions
	n, err := p.number()
	if err != nil || p.unit() != unit || !of.value.IsInt() || of.parted || n.value.Cmp(big.NewRat(below, 1)) >= 0 {
		p.fractions = fractions
		return n, false
	}
	n.digits = 0
	return n, true
}

// downFirst tells whether a tolerance stands here that begins with what may be missing:
// -5/+0, -5 +0.
func (p *parser) downFirst() bool {
	if !p.at('-') || !p.ahead(number) {
		return false
	}
	at := 2
	if p.peek(at).kind == '/' {
		at++
	}
	return p.peek(at).kind == '+'
}
