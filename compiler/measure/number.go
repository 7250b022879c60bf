package measure

import (
	"math/big"
	"strings"
)

// maxDigits bounds a number, so that no arithmetic grows beyond reason. A spreadsheet
// stores up to 17 digits of a number that it has computed.
const maxDigits = 17

// stated is a number with how closely it was written.
type stated struct {
	value  *big.Rat
	half   *big.Rat // half a unit of its last digit; 0 for a fraction, which is exact
	coarse *big.Rat // half, where a table may have rounded the number to its last zeros
	digits int      // that count; 0 for a fraction
	whole  bool     // written without decimals
	parted bool     // written with a fraction
}

// exactly is a number that was written as a fraction, or that is exact by definition.
func exactly(r *big.Rat) stated {
	return stated{value: r, half: new(big.Rat), coarse: new(big.Rat)}
}

// number reads `12.7`, `1/2`, `1 1/4` or `1-1/4`. The last two need a whole number
// and a proper fraction.
func (p *parser) number() (stated, error) {
	first, err := p.decimal(p.about.noun + " begins with a number")
	if err != nil {
		return first, err
	}
	switch {
	case p.at('/') && !p.ahead('-') && !p.ahead('+'):
		return p.fraction(first.value)
	case p.mixedAhead(first.value):
		return p.mixed(first.value)
	}
	return first, nil
}

// mixedAhead tells whether what follows a number belongs to it. A value may be a range, so
// that only a proper fraction does; in a size, anything else is a mistake that mixed names.
func (p *parser) mixedAhead(whole *big.Rat) bool {
	at := 0
	if p.at('-') {
		at = 1
	}
	if p.peek(at).kind != number {
		return false
	}
	if !p.about.ranges {
		return true
	}
	if p.peek(at+1).kind != '/' || p.peek(at+2).kind != number || whole.Sign() == 0 || !whole.IsInt() {
		return false
	}
	part, ok := new(big.Rat).SetString(p.peek(at).text + "/" + p.peek(at+2).text)
	return at == 0 || ok && part.Cmp(big.NewRat(1, 1)) < 0
}

func (p *parser) mixed(whole *big.Rat) (stated, error) {
	p.accept('-')
	over, err := p.decimal("")
	if err != nil {
		return over, err
	}
	if !whole.IsInt() || !p.at('/') {
		return over, p.faultf("two numbers stand where one size belongs; write one size, such as 1 1/4 in")
	}
	part, err := p.fraction(over.value)
	if err != nil {
		return part, err
	}
	if whole.Sign() == 0 || part.value.Sign() == 0 || part.value.Cmp(big.NewRat(1, 1)) >= 0 {
		return part, p.faultf("a fraction after a whole number is less than 1; write 1 1/4 in or 5/4 in")
	}
	p.fractions[len(p.fractions)-1].mixed = true
	part.value = new(big.Rat).Add(part.value, whole)
	return part, nil
}

// fraction reads `/4` behind a numerator.
func (p *parser) fraction(over *big.Rat) (stated, error) {
	p.next()
	under, err := p.decimal("a number is missing behind the /")
	switch {
	case err != nil:
		return under, err
	case p.at('/') && !p.ahead('-'):
		return under, p.faultf("this has two / and looks like a date; write 1/2 in")
	case !over.IsInt() || !under.value.IsInt():
		return under, p.faultf("a fraction has whole numbers above and below; write 1/2 in or 0.5 in")
	case under.value.Sign() == 0:
		return under, p.faultf("a fraction cannot have 0 below; write 1/2 in")
	}
	p.fractions, p.halved = append(p.fractions, ratio{over: over.Num(), under: under.value.Num()}), true
	s := exactly(new(big.Rat).Quo(over, under.value))
	s.parted = true
	return s, nil
}

// decimal reads digits with at most one decimal sign.
func (p *parser) decimal(missing string) (stated, error) {
	if !p.at(number) {
		if p.at('-') {
			return stated{}, p.faultf("%s is more than 0; write it without a minus", p.about.noun)
		}
		return stated{}, p.faultf("%s; write %s", missing, p.about.example)
	}
	text := p.grouped()
	sign := strings.IndexAny(text, ".,")
	if sign == 0 {
		text, sign = "0"+text, 1
	}
	switch {
	case strings.Count(text, ".")+strings.Count(text, ",") > 1:
		return stated{}, p.faultf("%s has more than one decimal sign; write a number such as 12.7", text)
	case len(text) > maxDigits+1 || sign < 0 && len(text) > maxDigits:
		return stated{}, p.faultf("%s has more than %d digits; write %s such as 12.7 mm", text, maxDigits, p.about.noun)
	case sign >= 0 && sign == len(text)-1:
		return stated{}, p.faultf("%s has no digit behind its decimal sign; write a number such as 12.7", text)
	}
	if sign >= 0 {
		if err := p.decimalSign(text, sign); err != nil {
			return stated{}, err
		}
	}
	return decimal(strings.Replace(text, ",", ".", 1)), nil
}

// grouped takes the digits of a number, which blanks may part in threes: 10 000.
func (p *parser) grouped() string {
	text := p.next().text
	if len(text) > 3 {
		return text
	}
	for !strings.ContainsAny(text, ".,") && p.at(number) && run(p.peek(0).text, digit) == 3 && !p.ahead('/') {
		text += p.next().text
	}
	return text
}

// decimal takes a decimal for what it says: half a unit of its last digit either way. A
// whole number that ends in zeros may have been rounded there, but never to fewer than
// three digits: 1030 stands for 1025 to 1035, and 700 for 699.5 to 700.5. Only what stands
// beside another value may have been rounded to tens or hundreds, as tables print it.
func decimal(text string) stated {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic("measure: a number token is not a number: " + text)
	}
	whole, decimals, point := strings.Cut(text, ".")
	figures := strings.TrimLeft(whole+decimals, "0")
	s := stated{value: r, digits: max(len(figures), 1), whole: !point}
	unit := new(big.Rat).SetFrac(big.NewInt(1), power10(len(decimals)))
	if !point {
		rounded := min(len(figures)-len(strings.TrimRight(figures, "0")), len(figures)-3)
		unit.SetInt(power10(max(rounded, 0)))
	}
	s.half = unit.Quo(unit, big.NewRat(2, 1))
	s.coarse = s.half
	if zeros := len(figures) - len(strings.TrimRight(figures, "0")); !point && figures != "" {
		rounded := new(big.Rat).SetFrac(power10(min(zeros, 2)), big.NewInt(2))
		s.coarse = larger(s.half, rounded)
	}
	return s
}

// decimalSign refuses a comma where the point is the decimal sign, and a sign that may
// well part thousands where the other one is.
func (p *parser) decimalSign(text string, at int) error {
	whole, decimals := text[:at], text[at+1:]
	thousands := strings.TrimLeft(whole, "0") != "" && len(decimals) == 3
	switch {
	case text[at] == ',' && !p.options.Comma && thousands && len(whole) <= 3:
		return p.faultf("%s may be read in two ways where the decimal sign is a point; write %s or %s", text, whole+decimals, whole+"."+decimals)
	case text[at] == ',' && !p.options.Comma:
		return p.faultf("the comma is no decimal sign here; write %s, or set decimal to , in Settings if it is meant as one", whole+"."+decimals)
	case text[at] == '.' && p.options.Comma && thousands:
		return p.faultf("%s may be read in two ways where the decimal sign is a comma; write %s or %s", text, whole+","+decimals, whole+decimals)
	}
	return nil
}
