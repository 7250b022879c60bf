package layout

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"ferrule/schema/word"
)

// parsed is what a text in a grid says: its mark, or its value, and its signs.
type parsed struct {
	value string // "" where marks say it all
	signs []*sign
	bad   string // the mark or the sign that is not declared
}

// parse reads a text by the marks that are declared. In a grid of marks nothing else may stand.
func (g *reading) parse(said string) parsed {
	said = strings.TrimSpace(said)
	if len(g.signs) == 0 {
		return parsed{value: said, bad: g.stranger(said)}
	}
	if s := g.sign(said); s != nil {
		return parsed{signs: []*sign{s}}
	}
	var signs []*sign
	rest := said
	for rest != "" {
		if s := g.sign(rest); s != nil {
			return parsed{signs: append([]*sign{s}, reversed(signs)...)}
		}
		s, before := g.trailing(rest)
		if s == nil {
			break
		}
		signs, rest = append(signs, s), before
	}
	if rest == "" {
		return parsed{signs: reversed(signs)}
	}
	if g.partAt < 0 && !g.marksOnly() {
		if slices.ContainsFunc(signs, func(s *sign) bool { return !detached(said, s) }) {
			return parsed{value: said, bad: g.stranger(said)} // letters and digits at its end are its own
		}
		return parsed{value: rest, signs: reversed(signs), bad: g.stranger(rest)}
	}
	return parsed{bad: rest}
}

// marksOnly tells whether the table has no column that cells could be values of.
func (g *reading) marksOnly() bool { return g.cellsAt < 0 }

func reversed(s []*sign) []*sign {
	out := slices.Clone(s)
	slices.Reverse(out)
	return out
}

// sign gives the mark that a text is.
func (g *reading) sign(said string) *sign {
	for _, s := range g.signs {
		if s.sign == said {
			return s
		}
	}
	folded := word.Fold(said)
	for _, s := range g.signs {
		if word.Fold(s.sign) == folded {
			return s
		}
	}
	plain := plainSign(said)
	if plain == folded {
		return nil
	}
	for _, s := range g.signs {
		if s.plain == plain {
			return s
		}
	}
	return nil
}

// trailing gives the sign that a text ends with, and what stands before it.
func (g *reading) trailing(said string) (*sign, string) {
	for _, s := range g.signs {
		for _, form := range []string{s.sign, "(" + s.plain + ")", "[" + s.plain + "]", raised(s.plain), s.plain} {
			before, ok := strings.CutSuffix(said, form)
			if !ok || form == "" {
				continue
			}
			return s, strings.TrimRight(before, " \t\n,;/")
		}
	}
	return nil, ""
}

var raisedDigits = strings.NewReplacer("0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")

// raised writes digits as footnotes have them; "" where there are others.
func raised(s string) string {
	if s == "" || strings.IndexFunc(s, func(r rune) bool { return r < '0' || r > '9' }) >= 0 {
		return ""
	}
	return raisedDigits.Replace(s)
}

// detached tells whether a sign at the end of a value cannot be a part of it.
func detached(said string, s *sign) bool {
	r, _ := utf8.DecodeLastRuneInString(strings.TrimSpace(said))
	return strings.ContainsRune(")]", r) || r == '†' || r == '‡' || r == '§' || !unicode.IsLetter(r) && !unicode.IsDigit(r) || superscripts.Replace(string(r)) != string(r)
}

// strip takes declared footnote signs off a value of a row or a head. Letters and digits are
// taken for its own.
func (g *reading) strip(v *held) (*held, []*sign) {
	if len(g.signs) == 0 || v.Text == "" {
		return v, nil
	}
	rest, signs := strings.TrimSpace(v.Text), []*sign(nil)
	for {
		s, before := g.trailing(rest)
		if s == nil || before == "" || s.part || s.nothing || s.fits != "" || !detached(rest, s) || alnum(s.sign) && !strings.HasSuffix(rest, ")") && !strings.HasSuffix(rest, "]") && raised(s.plain) == "" {
			break
		}
		signs, rest = append(signs, s), before
		g.met(s.row, true)
	}
	if signs == nil {
		return v, nil
	}
	return &held{text(rest), v.at}, reversed(signs)
}
