package layout

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/schema/word"
)

func (a *author) markRow(p *piece, r *Row) {
	as := word.Fold(r.As)
	if as == "or" || as == "+" {
		a.joinRow(p, r, as)
		return
	}
	m := &mark{row: r, sign: unquoted(r.Where)}
	switch {
	case r.Where == "":
		a.fail(r.WhereAt, "nothing stands under Where of a row mark", "write the mark as it stands in the cells; what a blank cell means is said by a row say")
		return
	case as == "this row", as == "this part", as == "the row":
		m.part = true
	case as == "nothing":
		m.nothing = true
	case as == "note below":
		m.note = true
	case fitsWord(as):
		m.fits = r.As
	default:
		if m.conds = condsOf(r.As); m.conds == nil {
			a.fail(r.AsAt, fmt.Sprintf("%s under As of the row about the mark %s cannot be read%s", said(r.As), said(m.sign), word.DidYouMean(r.As, []string{"this row", "nothing", "note below"})),
				"write this row (the part of the row), nothing, none: and why, note below (a text under the table begins with the mark), Column = condition, or or and + for several parts that are marked at one place")
			return
		}
	}
	for _, n := range p.marks {
		if n.sign == m.sign {
			if !n.says(m) {
				a.contradict(n.row.AsAt, r.AsAt, fmt.Sprintf("the mark %s is declared twice, as %s and as %s", said(m.sign), said(n.row.As), said(r.As)), "keep one of the two rows")
			}
			return
		}
	}
	p.marks = append(p.marks, m)
}

// fitsWord tells whether a text is what a fitment cell says of no part.
func fitsWord(as string) bool {
	first, _, _ := strings.Cut(as, ":")
	first, _, _ = strings.Cut(first, " ")
	return slices.Contains([]string{"none", "planned", "tbd", "ask", "with"}, first) && !strings.Contains(as, "=")
}

// condsOf reads `Column = condition`, or several of them between semicolons; nil where it is
// none.
func condsOf(as string) []cond {
	var out []cond
	for _, part := range strings.Split(as, ";") {
		column, text, ok := strings.Cut(part, "=")
		column, text = strings.TrimSpace(column), strings.TrimSpace(text)
		if !ok || column == "" || text == "" {
			return nil
		}
		out = append(out, cond{targetOf(column), text})
	}
	return out
}

// says tells whether two marks say the same.
func (m *mark) says(n *mark) bool {
	return m.part == n.part && m.nothing == n.nothing && m.note == n.note && m.fits == n.fits && slices.Equal(m.conds, n.conds)
}

func (a *author) joinRow(p *piece, r *Row, with string) {
	j := &join{r, unquoted(r.Where), with}
	for _, k := range p.joins {
		if k.sign == j.sign && k.with != j.with {
			a.contradict(k.row.AsAt, r.AsAt, "several parts at one place are joined by or in one row and by + in the other", "keep one of the two rows")
			return
		}
	}
	p.joins = append(p.joins, j)
}

// joined tells how parts with two marks at one place go together; "" where nobody says.
func (p *piece) joined(a, b *sign) string {
	if w := p.joinOf(a); w == p.joinOf(b) {
		return w
	}
	return ""
}

// joinOf gives how a part with a mark goes together with others.
func (p *piece) joinOf(s *sign) string {
	for _, j := range p.joins {
		if s != nil && word.Fold(j.sign) == word.Fold(s.sign) {
			return j.with
		}
	}
	for _, j := range p.joins {
		if j.sign == "" {
			return j.with
		}
	}
	return ""
}

// superscripts are digits as footnotes have them.
var superscripts = strings.NewReplacer("⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9")

// plainSign writes a sign without what footnotes are dressed in.
func plainSign(s string) string {
	s = word.Fold(superscripts.Replace(s))
	if n := len(s); n > 2 && (s[0] == '(' && s[n-1] == ')' || s[0] == '[' && s[n-1] == ']') {
		s = strings.TrimSpace(s[1 : n-1])
	}
	return s
}
