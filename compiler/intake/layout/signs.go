package layout

import (
	"fmt"
	"slices"
	"strings"
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
