package measure

import (
	"math/big"
	"strings"
	"unicode/utf8"
)

// maxLength bounds the text of a size, in characters.
const maxLength = 100

// Options of reading sizes. Comma says that the decimal sign in texts is a comma; a
// number that a cell holds as a number has a point whatever the setting, so its text
// is to be read without Comma.
type Options struct {
	Comma bool
	unit  Unit // where the text states none
}

// ParseUnit reads the name of a unit of sizes, as headers have it in brackets.
func ParseUnit(text string) (Unit, bool) {
	switch strings.TrimSuffix(strings.ToLower(strings.TrimSpace(text)), ".") {
	case "in", "inch", "inches", `"`, "″":
		return Inch, true
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return Millimetre, true
	}
	return NoUnit, false
}

// ParseSize reads a size: `1/2 in`, `½"`, `1 1/4 in`, `12.7 mm`, `8x1 mm` (outside
// diameter and wall), `1/2 in hose`; a second system may follow in round brackets if
// it says the same, as String writes it. The error is a sentence that says what to
// write; errors.Is(err, ErrUnitless) where only the unit is missing.
func ParseSize(text string, o Options) (Size, error) {
	p := parser{source: strings.TrimSpace(text), options: o}
	if utf8.RuneCountInString(p.source) > maxLength {
		return Size{}, p.faultf("this is too long for a size; write 1/2 in or 12.7 mm")
	}
	p.tokens = tokens(p.source)
	s, err := p.size()
	if err != nil {
		return Size{}, err
	}
	s.Text = p.source
	return s, nil
}

// ParseSizeIn is ParseSize for a cell under a header that states a unit: it holds
// where the text states none of its own.
func ParseSizeIn(text string, unit Unit, o Options) (Size, error) {
	o.unit = unit
	return ParseSize(text, o)
}

type parser struct {
	source  string
	options Options
	tokens  []token
	kinds   // what the words said
}

// kinds are the words met that say what is measured.
type kinds struct{ tube, hose, outside, inside bool }

func (p *parser) faultf(format string, args ...any) error {
	return faultf("%s: "+format, append([]any{quoted(p.source)}, args...)...)
}

func (p *parser) at(k kind) bool { return p.peek(0).kind == k }

func (p *parser) ahead(k kind) bool { return p.peek(1).kind == k }

func (p *parser) peek(i int) token {
	if i < len(p.tokens) {
		return p.tokens[i]
	}
	return token{}
}

func (p *parser) next() token {
	t := p.peek(0)
	if t.kind != end {
		p.tokens = p.tokens[1:]
	}
	return t
}

func (p *parser) accept(k kind) bool {
	if p.at(k) {
		p.next()
		return true
	}
	return false
}

// size reads the whole text.
func (p *parser) size() (Size, error) {
	if p.source == "" {
		return Size{}, faultf("a size is missing; write 1/2 in or 12.7 mm")
	}
	p.of()
	s, err := p.dimensions()
	if err != nil {
		return Size{}, err
	}
	if p.of(); s.Unit == NoUnit {
		s.Unit = p.unit() // 1/2 hose in
		p.of()
	}
	if p.at('(') {
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

// dimensions reads the diameter, the wall and the unit.
func (p *parser) dimensions() (Size, error) {
	var s Size
	var err error
	if s.Num, err = p.number(); err != nil {
		return s, err
	}
	s.Unit = p.unit()
	if !p.at(word) || p.peek(0).text != "x" {
		return s, nil
	}
	p.next()
	if s.Wall, err = p.number(); err != nil {
		return s, err
	}
	unit := p.unit()
	if s.Unit != NoUnit && unit != NoUnit && s.Unit != unit {
		return s, p.faultf("diameter and wall have different units; write both in one, such as 8x1 mm")
	}
	s.Unit = max(s.Unit, unit)
	return s, nil
}

// unit reads a unit if one stands here.
func (p *parser) unit() Unit {
	if p.accept('"') {
		return Inch
	}
	if p.at(word) {
		if u, ok := ParseUnit(p.peek(0).text); ok {
			p.next()
			return u
		}
	}
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
		case "diameter", "dia":
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
	}
	if s.Unit == NoUnit {
		return s, &fault{quoted(p.source) + " has no unit; write " + p.with("in") + " or " + p.with("mm"), true}
	}
	if p.hose || p.inside {
		s.Of = Hose
	}
	return s, p.sane(s)
}

// with puts a unit behind the numbers of the text.
func (p *parser) with(unit string) string {
	at := strings.LastIndexFunc(p.source, func(r rune) bool {
		return digit(r) || strings.ContainsRune("½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚", r)
	})
	_, n := utf8.DecodeRuneInString(p.source[at:])
	return p.source[:at+n] + " " + unit + p.source[at+n:]
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
	case s.Of == Hose:
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
