package layout

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// sign is a mark with what it says in this table.
type sign struct {
	*mark
	plain  string // without what footnotes are dressed in
	fields []table.Field
	note   *table.Field
	number int32 // counted from 1
}

// markColumns makes the columns that marks say something of.
func (g *reading) markColumns() {
	for _, m := range g.marks {
		g.signs = append(g.signs, &sign{mark: m, plain: plainSign(m.sign)})
		for _, c := range m.conds {
			t := c.target
			t.name = g.alias(t.name)
			g.add(t, elsewhere, m.row.AsAt)
		}
		if m.note && g.known("Note") {
			g.notes = g.add(target{name: "Note"}, elsewhere, m.row.AsAt)
		}
	}
	// Of two signs that a text ends with the longer one is meant.
	slices.SortStableFunc(g.signs, func(a, b *sign) int { return len(b.sign) - len(a.sign) })
	for i, s := range g.signs {
		s.number = int32(i) + 1
	}
}

// declare makes the values that marks say.
func (g *reading) declare() {
	for _, s := range g.signs {
		at := g.maker.Table().Elsewhere(s.row.AsAt)
		for _, c := range s.conds {
			i := g.index[word.Fold(g.alias(c.target.name))]
			col := &column{row: s.row, level: []int{i}, years: []bool{g.holdsYears(c.target.name)}}
			s.fields = append(s.fields, g.fields(col, &held{text(c.text), at})...)
		}
		if !s.mark.note {
			continue
		}
		l, ok := g.r.ahead.legends[s.sign]
		if !ok {
			g.r.report(&table.Fault{What: table.Unmatched, Cells: []cell.Place{s.row.WhereAt, {Sheet: g.r.sheet}},
				Message: fmt.Sprintf("no text under the table begins with %s, which a row mark says is a note below", word.Quote(s.sign)),
				Fix:     "write the note under the table, with the sign before it, or say under As what the sign means"})
			continue
		}
		if g.notes >= 0 {
			f := g.field(g.notes, &held{text(l.text), l.at})
			s.note = &f
		}
	}
}

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

// stranger gives the footnote sign that a value ends with and nobody has declared; "" for none.
func (g *reading) stranger(said string) string {
	r, n := utf8.DecodeLastRuneInString(said)
	if n == 0 || n == len(said) {
		return ""
	}
	if strings.ContainsRune("*†‡§¶", r) || superscripts.Replace(string(r)) != string(r) {
		rest := strings.TrimRightFunc(said, func(r rune) bool {
			return strings.ContainsRune("*†‡§¶", r) || superscripts.Replace(string(r)) != string(r)
		})
		return said[len(rest):]
	}
	return ""
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

// undeclared tells of a mark or a sign that no row of Layouts declares.
func (g *reading) undeclared(bad, said string, at cell.Pos, by *Row) bool {
	names := make([]string, 0, len(g.signs))
	for _, s := range g.signs {
		names = append(names, s.sign)
	}
	what, fix := "the mark "+word.Quote(table.Short(bad)), "write a row mark that says what it means: this row, nothing, none: and why, note below, or Column = condition"
	if len(names) == 0 || bad != said {
		what = "the sign " + word.Quote(table.Short(bad)) + ", in " + word.Quote(table.Short(said)) + ","
	}
	near := ""
	if len([]rune(bad)) > 2 {
		near = word.DidYouMean(bad, names)
	}
	declared := "no row mark declares any"
	if len(names) > 0 {
		for i := range names {
			names[i] = word.Quote(names[i])
		}
		slices.Sort(names)
		declared = "declared are " + word.List(names[:min(len(names), 12)], "and")
		if len(names) == 1 {
			declared = "declared is " + names[0]
		}
	}
	return g.fault("mark "+bad, at, by.WhereAt, table.Undeclared, fmt.Sprintf("%s is declared by no row mark%s; %s", what, near, declared), fix)
}

// fitting tells whether cells are those of a fitment row.
func (g *reading) fitting() bool { return g.kind == schema.Fitment }
