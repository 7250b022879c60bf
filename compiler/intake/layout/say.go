package layout

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/schema/word"
	"ferrule/sheets"
)

// say gives other words for what cells say.
type say struct {
	row *Row
	place
	old, now string // old is folded; "" for a blank cell
}

// sayRow understands a row say: old words and new ones, or the century of years of two digits.
func (a *author) sayRow(p *piece, r *Row) {
	old, now, ok := strings.Cut(r.As, "=")
	old, now = strings.TrimSpace(old), strings.TrimSpace(now)
	if r.Where == "" {
		a.fail(r.WhereAt, "nothing stands under Where of a row say", "write the head, or the column, whose cells say it")
		return
	}
	if !ok || old == "" && now == "" || word.Fold(unquoted(old)) == word.Fold(unquoted(now)) && !strings.HasPrefix(old, `"`) && old == now {
		a.fail(r.AsAt, fmt.Sprintf("%s under As of a row say does not say which words stand for which", said(r.As)), "write the old and the new words with = between them (air = Air beam); = Air beam for blank cells")
		return
	}
	if word.Fold(old) == "century" && word.Fold(r.Where) == "years" {
		a.centuryRow(p, r, now)
		return
	}
	s := &say{r, placeOf(r.Where), word.Fold(unquoted(old)), unquoted(now)}
	for _, t := range p.says {
		if word.Fold(t.text) == word.Fold(s.text) && t.old == s.old && t.now != s.now {
			a.contradict(t.row.AsAt, r.AsAt, fmt.Sprintf("%s is said in two ways, %s and %s", said(old), said(t.now), said(s.now)), "keep one of the two rows")
			return
		}
	}
	p.says = append(p.says, s)
}

// unquoted gives a text without the quotes around it.
func unquoted(s string) string {
	if m := textSaid.FindStringSubmatch(s); m != nil {
		return m[1]
	}
	return s
}

// centuryRow understands the first year that two digits may mean.
func (a *author) centuryRow(p *piece, r *Row, year string) {
	n, err := strconv.Atoi(year)
	if err != nil || n < 1800 || n > 2100 {
		a.fail(r.AsAt, fmt.Sprintf("%s is not the first year that two digits may mean", said(year)), "write century = 1950 where 50 means 1950 and 49 means 2049")
		return
	}
	if p.century != nil && p.years.century != n {
		a.contradict(p.century.AsAt, r.AsAt, fmt.Sprintf("two digits begin with %d in one row and with %d in the other", p.years.century, n), "keep one of the two rows")
		return
	}
	p.years.century, p.century = n, r
}

// reworded gives a value in the words that Layouts declares for it.
func (g *reading) reworded(c *column, v *held) *held {
	if len(c.says) == 0 {
		return v
	}
	key := word.Fold(v.Text)
	for _, s := range c.says {
		if s.old != "" && s.old == key {
			g.met(s.row, true)
			return &held{text(s.now), v.at}
		}
	}
	return v
}

// worded gives what is left of a name without its years in the words declared for its column.
func (g *reading) worded(column int, name string) sheets.Value {
	if column == partOf {
		return text(name)
	}
	for _, s := range g.says {
		if s.old == word.Fold(name) && word.Fold(s.text) == word.Fold(g.columns[column].Name) {
			g.met(s.row, true)
			return text(s.now)
		}
	}
	return text(name)
}

// saidBelow gives a text below across in the words that Layouts declares for it.
func (g *reading) saidBelow(t string) string {
	key := word.Fold(t)
	for _, s := range g.says {
		if s.old != "" && s.old == key && (s.what == theCells || s.what == aHead && g.cellsAt >= 0 && word.Fold(g.alias(s.text)) == word.Fold(g.columns[g.cellsAt].Name)) {
			g.met(s.row, true)
			return s.now
		}
	}
	return t
}

// saysOf tells whether words are declared for one of some columns.
func (g *reading) saysOf(s *say, level []target) bool {
	return slices.ContainsFunc(level, func(t target) bool { return word.Fold(t.name) == word.Fold(s.text) })
}

// met takes note that a row of Layouts did something.
func (g *reading) met(r *Row, yes bool) {
	if yes {
		g.r.Plan.met[r] = true
	}
}
