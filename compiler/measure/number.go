package measure

import (
	"math/big"
	"strings"
)

// maxDigits bounds a number, so that no arithmetic grows beyond reason. A spreadsheet
// stores up to 17 digits of a number that it has computed.
const maxDigits = 17

// number reads `12.7`, `1/2`, `1 1/4` or `1-1/4`. The last two need a whole number
// and a proper fraction.
func (p *parser) number() (*big.Rat, error) {
	first, err := p.decimal("a size begins with a number")
	if err != nil {
		return nil, err
	}
	switch {
	case p.at('/'):
		return p.fraction(first)
	case p.at(number) || p.at('-') && p.ahead(number):
		return p.mixed(first)
	}
	return first, nil
}

func (p *parser) mixed(whole *big.Rat) (*big.Rat, error) {
	p.accept('-')
	over, err := p.decimal("")
	if err != nil {
		return nil, err
	}
	if !whole.IsInt() || !p.at('/') {
		return nil, p.faultf("two numbers stand where one size belongs; write one size, such as 1 1/4 in")
	}
	part, err := p.fraction(over)
	if err != nil {
		return nil, err
	}
	if whole.Sign() == 0 || part.Sign() == 0 || part.Cmp(big.NewRat(1, 1)) >= 0 {
		return nil, p.faultf("a fraction after a whole number is less than 1; write 1 1/4 in or 5/4 in")
	}
	return part.Add(part, whole), nil
}

// fraction reads `/4` behind a numerator.
func (p *parser) fraction(over *big.Rat) (*big.Rat, error) {
	p.next()
	under, err := p.decimal("a number is missing behind the /")
	switch {
	case err != nil:
		return nil, err
	case p.at('/'):
		return nil, p.faultf("this has two / and looks like a date; write 1/2 in")
	case !over.IsInt() || !under.IsInt():
		return nil, p.faultf("a fraction has whole numbers above and below; write 1/2 in or 0.5 in")
	case under.Sign() == 0:
		return nil, p.faultf("a fraction cannot have 0 below; write 1/2 in")
	}
	return new(big.Rat).Quo(over, under), nil
}

// decimal reads digits with at most one decimal sign.
func (p *parser) decimal(missing string) (*big.Rat, error) {
	if !p.at(number) {
		if p.at('-') {
			return nil, p.faultf("a size is more than 0; write it without a minus")
		}
		return nil, p.faultf("%s; write 1/2 in or 12.7 mm", missing)
	}
	text := p.next().text
	sign := strings.IndexAny(text, ".,")
	switch {
	case strings.Count(text, ".")+strings.Count(text, ",") > 1:
		return nil, p.faultf("%s has more than one decimal sign; write a number such as 12.7", text)
	case len(text) > maxDigits+1 || sign < 0 && len(text) > maxDigits:
		return nil, p.faultf("%s has more than %d digits; write a size such as 12.7 mm", text, maxDigits)
	case sign >= 0 && sign == len(text)-1:
		return nil, p.faultf("%s has no digit behind its decimal sign; write a number such as 12.7", text)
	}
	if sign >= 0 {
		if err := p.decimalSign(text, sign); err != nil {
			return nil, err
		}
	}
	r, ok := new(big.Rat).SetString(strings.Replace(text, ",", ".", 1))
	if !ok {
		panic("measure: a number token is not a number: " + text)
	}
	return r, nil
}

// decimalSign refuses a comma where the point is the decimal sign, and a point that
// may well part thousands where the comma is.
func (p *parser) decimalSign(text string, at int) error {
	if text[at] == ',' && !p.options.Comma {
		return p.faultf("%s has a comma; write %s, or set decimal to , in Settings if commas are meant so",
			text, strings.Replace(text, ",", ".", 1))
	}
	whole := strings.TrimLeft(text[:at], "0")
	if text[at] == '.' && p.options.Comma && whole != "" && len(text)-at == 4 {
		return p.faultf("%s may be read in two ways where the decimal sign is a comma; write %s or %s",
			text, strings.Replace(text, ".", ",", 1), strings.Replace(text, ".", "", 1))
	}
	return nil
}
