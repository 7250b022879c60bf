package measure

import "math/big"

// ParseSize reads a size: `1/2 in`, `½"`, `1 1/4 in`, `12.7 mm`, `8x1 mm` (outside
// diameter and wall), `1/2 in hose`; a second system may follow in round brackets if
// it says the same, as String writes it. The error is a sentence that says what to
// write; errors.Is(err, ErrUnitless) where only the unit is missing.
func ParseSize(text string, o Options) (Size, error) {
	p, err := newParser(text, o, subject{noun: "a size", example: "1/2 in or 12.7 mm"})
	if err != nil {
		return Size{}, err
	}
	s, err := p.size()
	if err != nil {
		return Size{}, err
	}
	s.Text = p.source
	return s, nil
}

// ParseSizeIn is ParseSize for a cell under a header that states a unit: it holds
// where the text states none of its own. Sizes are in inches or millimetres: any other
// unit of a header counts as none.
func ParseSizeIn(text string, unit Unit, o Options) (Size, error) {
	if unit == Inch || unit == Millimetre {
		o.unit = unit
	}
	return ParseSize(text, o)
}

// size reads the whole text.
func (p *parser) size() (Size, error) {
	p.of()
	s, _, err := p.dimensions()
	if err != nil {
		return Size{}, err
	}
	if p.of(); s.Unit == NoUnit {
		s.Unit = p.sizeUnit() // 1/2 hose in
		p.of()
	}
	unit := s.Unit
	if unit == NoUnit {
		unit = p.options.unit
	}
	if err := p.divided(unit); err != nil {
		return Size{}, err
	}
	if p.at('(') || p.at('[') {
		if err := p.second(s); err != nil {
			return Size{}, err
		}
		p.of()
	}
	if !p.at(end) {
		return Size{}, p.strange()
	}
	return p.finish(s)
}

// dimensions reads the diameter, the wall and the unit. It says how closely the diameter
// is stated as well.
func (p *parser) dimensions() (Size, *big.Rat, error) {
	var s Size
	diameter, err := p.number()
	if err != nil {
		return s, nil, err
	}
	s.Num = diameter.value
	s.Unit = p.hyphened(p.sizeUnit)
	if !p.at(word) || p.peek(0).text != "x" {
		return s, diameter.half, nil
	}
	p.next()
	wall, err := p.number()
	if err != nil {
		return s, nil, err
	}
	s.Wall = wall.value
	unit := p.sizeUnit()
	if s.Unit != NoUnit && unit != NoUnit && s.Unit != unit {
		return s, nil, p.faultf("diameter and wall have different units; write both in one, such as 8x1 mm")
	}
	s.Unit = max(s.Unit, unit)
	return s, diameter.half, nil
}

// sizeUnit reads a unit of sizes if one stands here.
func (p *parser) sizeUnit() Unit {
	before := p.tokens
	u := p.unit()
	if u == Inch || u == Millimetre {
		return u
	}
	p.tokens = before
	return NoUnit
}

// of reads words that say what is measured.
func (p *parser) of() {
	for p.at(word) {
		switch p.peek(0).text {
		case "tube", "tubing":
			p.tube = true
		case "hose":
			p.hose = true
		case "od", "outside":
			p.outside = true
		case "id", "inside":
			p.inside = true
		case "diameter", "dia", "ø":
		default:
			return
		}
		p.next()
	}
}

// finish settles what is measured and whether the size makes sense.
func (p *parser) finish(s Size) (Size, error) {
	switch {
	case p.tube && p.hose:
		return s, p.faultf("this is called a tube and a hose; write tube (outside diameter) or hose (inside diameter)")
	case p.outside && p.inside:
		return s, p.faultf("this is called an outside and an inside diameter; write tube (outside diameter) or hose (inside diameter)")
	case p.tube && p.inside:
		return s, p.faultf("a tube is named by its outside diameter; write that, or hose for an inside diameter")
	case p.hose && p.outside:
		return s, p.faultf("a hose is named by its inside diameter; write that, or tube for an outside diameter")
	case s.Num.Sign() == 0:
		return s, p.faultf("a size is more than 0; write 1/2 in or 12.7 mm")
	}
	if s.Unit == NoUnit {
		s.Unit = p.options.unit
		if err := p.otherwise(s); err != nil {
			return s, err
		}
	}
	if s.Unit == NoUnit {
		return s, &fault{sentence: quoted(p.source) + " has no unit; write " + p.withEither("in", "mm"), kind: ErrUnitless}
	}
	if p.hose || p.inside {
		s.Line = Hose
	}
	return s, p.sane(s)
}

// otherwise refuses a diameter and wall in the header's unit where no table has them and one
// has them in the other: 10x1.5 under inches is no tube of ten inches.
func (p *parser) otherwise(s Size) error {
	if s.Wall == nil || s.Unit == NoUnit || Standard().Admits(s) {
		return nil
	}
	other := s
	if other.Unit = s.Unit.Other(); !Standard().Admits(other) {
		return nil
	}
	return p.faultf("the header says %s, and %s is a tube that is made; write %s or %s, whichever is meant", s.Unit, other.Name(), other.Name(), s.Name())
}

// sane refuses sizes that nothing has.
func (p *parser) sane(s Size) error {
	least, most := big.NewRat(1, 100), big.NewRat(100_000, 1)
	mm := s.MM()
	switch {
	case mm.Cmp(most) > 0:
		return p.faultf("more than 100 m is no size of a line or part; write 1/2 in or 12.7 mm")
	case mm.Cmp(least) < 0:
		return p.faultf("less than 0.01 mm is no size of a line or part; write 1/2 in or 12.7 mm")
	case s.Wall == nil:
		return nil
	case s.Line == Hose:
		return p.faultf("a hose is named by its inside diameter alone; write it without x and what follows")
	case s.Wall.Sign() == 0 || Convert(s.Wall, s.Unit, Millimetre).Cmp(least) < 0:
		return p.faultf("a wall is at least 0.01 mm; write diameter x wall, such as 8x1 mm")
	case new(big.Rat).Add(s.Wall, s.Wall).Cmp(s.Num) >= 0:
		return p.faultf("a wall is less than half the outside diameter; write diameter x wall, such as 8x1 mm")
	}
	return nil
}

// strange names the first thing that does not belong in a size.
func (p *parser) strange() error {
	t := p.next()
	switch {
	case t.kind == '\'':
		return p.faultf("a single mark stands for feet; write the size in inches or millimetres, such as 1/2 in")
	case t.kind == word || t.kind == number:
		return p.faultf("%s is not understood here; write 1/2 in, 12.7 mm, 8x1 mm or 1/2 in hose", t.text)
	}
	return p.faultf("the sign %s is not understood here; write 1/2 in, 12.7 mm, 8x1 mm or 1/2 in hose", t.text)
}
