package measure

import (
	"strings"
	"unicode/utf8"
)

// maxLength bounds the text of a size or value, in characters.
const maxLength = 100

// Options of reading sizes and values. Comma says that the decimal sign in texts is a
// comma; a number that a cell holds as a number has a point whatever the setting, so its
// text is to be read without Comma.
//
// Formula says that the text stands in a formula, where 1/3 is a plain number.
type Options struct {
	Comma   bool // the decimal sign is a comma
	Formula bool // the text is an operand of a formula
	unit    Unit // where the text states none
}

// subject is what a parser reads, as its sentences call it.
type subject struct {
	noun, example string
	ranges        bool // a number may be the first of two
}

type parser struct {
	source  string
	options Options
	about   subject
	tokens  []token
	kinds   // what the words said

	fractions []ratio // that have been read, and not yet been judged
	halved    bool    // a fraction has been read
}

func newParser(text string, o Options, about subject) (*parser, error) {
	p := &parser{source: strings.TrimSpace(text), options: o, about: about}
	switch {
	case p.source == "":
		return nil, faultf("%s is missing; write %s", about.noun, about.example)
	case utf8.RuneCountInString(p.source) > maxLength:
		return nil, &fault{sentence: quoted(p.source) + ": this is too long for " + about.noun + "; write " + about.example, kind: ErrNoValue}
	}
	p.tokens = tokens(p.source)
	return p, nil
}

// kinds are the words met that say what is measured.
type kinds struct{ tube, hose, outside, inside, round bool }

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

// withEither puts one of two units behind the numbers of the text, or inches alone where it
// has a fraction, which no other unit of the two takes.
func (p *parser) withEither(a, b string) string {
	if p.halved {
		return p.with("in")
	}
	return p.with(a) + " or " + p.with(b)
}

// with puts a unit behind the numbers of the text.
func (p *parser) with(unit string) string {
	at := strings.LastIndexFunc(p.source, func(r rune) bool {
		return digit(r) || strings.ContainsRune("½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚", r)
	})
	_, n := utf8.DecodeRuneInString(p.source[at:])
	return p.source[:at+n] + " " + unit + p.source[at+n:]
}
