package formula

import (
	"fmt"
	"strings"

	"ferrule/compiler/measure"
	"ferrule/schema/word"
)

// fault is a sentence about a text that is no formula.
type fault string

func (f fault) Error() string { return string(f) }

// ErrDead says that a formula uses a name whose own formula is at fault.
var ErrDead error = fault("a name in the formula is calculated by a formula that cannot be read")

func faultf(format string, args ...any) error { return fault(fmt.Sprintf(format, args...)) }

// missing says that an operand is not there.
func (p *parser) missing() error {
	before, after := p.slice(0, p.at), p.slice(p.at, len(p.text))
	switch {
	case before == "":
		return faultf("something is missing before %q; write a name or a quantity there", after)
	case after == "":
		return faultf("something is missing behind %q; write a name or a quantity there", before)
	}
	return faultf("something is missing between %q and %q; write a name or a quantity there", before, after)
}

// unlike says that two parts cannot be added or taken from one another.
func (p *parser) unlike(left, right part, o op) error {
	l, r := p.kind(left), p.kind(right)
	if o == add {
		return faultf("the formula adds %s, to %s; only like can be added", r, l)
	}
	return faultf("the formula takes %s, from %s; only like can be taken from like", r, l)
}

// warm says that temperatures are only compared: what 20 °C and 20 °C, or twice 20 °C, are
// depends on where the scale begins.
func (p *parser) warm(of part) error {
	return faultf("the formula calculates with %s; temperatures can only be compared, so let one side of a limit be this one alone", p.kind(of))
}

// kind says what a part of a formula is: `a length, Front wheel travel`.
func (p *parser) kind(of part) string { return Article(of.dim) + ", " + p.slice(of.from, of.to) }

// Article gives a dimension with its article: `a length`, `an angle`.
func Article(d measure.Dimension) string {
	if d == measure.Count() {
		return "a plain number"
	}
	text := d.String()
	if strings.ContainsRune("aeiou", rune(text[0])) {
		return "an " + text
	}
	return "a " + text
}

// unknown says that a piece is neither a name nor a quantity. why is what is wrong
// with it as a quantity.
func (p *parser) unknown(text string, why error) error {
	if starts(text) {
		return why
	}
	if spaced := p.spaced(text); spaced != "" {
		return faultf("nothing is called %q; operators have spaces around: write %s", text, spaced)
	}
	return faultf("no property of parts and no fact is called %q, and it is no quantity%s", text, word.DidYouMean(text, p.names.list))
}

// spaced gives the piece with spaces around its operators where that makes sense of
// it, "" where it does not.
func (p *parser) spaced(text string) string {
	var b strings.Builder
	found := false
	for _, r := range text {
		if _, ok := sign(r); ok {
			fmt.Fprintf(&b, " %c ", r)
			found = true
			continue
		}
		b.WriteRune(r)
	}
	if !found {
		return ""
	}
	s := newSource(b.String())
	for !s.end() {
		end := s.piece()
		if _, named, ok := s.name(p.names); ok {
			end = named
		} else if _, err := measure.ParseQuantityIn(s.slice(s.at, end), measure.One, p.options); err != nil {
			return ""
		}
		s.at = min(end+3, len(s.text))
	}
	return string(s.text)
}
