package check

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/schema/word"
)

var rowsMergeable = &Check{
	Kind: finding.Kind{Code: finding.RowsMergeable, Severity: "note",
		Summary: "fitment rows that say the same and could be one row",
		Doc:     "The rows differ in one condition only: their years follow on one another, or they name different values of one trait. One row is quicker to read, and cannot come to disagree with itself.",
		Before:  "Fitment!A2  H7  B2  2004-2008  C2  HD-20\nFitment!A3  H7  B3  2009-2012  C3  HD-20",
		After:   "Fitment!A2  H7  B2  2004-2012  C2  HD-20"},
	Requires: []Ground{Needed},
	Catalogue: func(c *Catalogue) {
		m := merger{report: c.Report, used: map[*model.Fitment]bool{}, owed: c.owed, conditions: newTwins()}
		candidates := alike(joinable(c))
		m.years(dated(candidates))
		for i, naming := range naming(candidates, len(c.Traits)) {
			m.trait(c.Traits[i], naming)
		}
	},
}

// dated gives the candidates whose years are one range.
func dated(all []candidate) []*candidate {
	var out []*candidate
	for i := range all {
		if y := all[i].When.Years; y != nil && !y.Not && len(y.Spans) == 1 {
			out = append(out, &all[i])
		}
	}
	return out
}

// naming gives for each of so many traits the candidates that name it.
func naming(all []candidate, traits int) [][]*candidate {
	counts := make([]int, traits)
	for i := range all {
		for _, t := range all[i].When.Traits {
			counts[t.Trait.Index]++
		}
	}
	out := make([][]*candidate, traits)
	for i, n := range counts {
		out[i] = make([]*candidate, 0, n)
	}
	for i := range all {
		for _, t := range all[i].When.Traits {
			out[t.Trait.Index] = append(out[t.Trait.Index], &all[i])
		}
	}
	return out
}

// joinable gives the rows that may be joined with others: one of which no cell is needed is told
// as redundant.
func joinable(c *Catalogue) []*model.Fitment {
	out := make([]*model.Fitment, 0, len(c.Fitments))
	for _, f := range c.Fitments {
		if c.Reached[f] && slices.ContainsFunc(f.Cells, func(fc *model.FitCell) bool { return c.Needed.Has(fc.At) }) {
			out = append(out, f)
		}
	}
	return out
}

// merger looks for rows to join; each is joined once.
type merger struct {
	used       map[*model.Fitment]bool
	report     func(*finding.Finding)
	owed       *owed.Ledger
	conditions *twins // all but one of each candidate
}

// groups gives rows that are alike in all but one condition, in order, and leaves out most of
// those that no other is like: but is the trait, or nil for the years.
func (m *merger) groups(rows []*candidate, but *model.Trait) [][]*model.Fitment {
	var key []byte
	keyOf := func(f *candidate) []byte {
		key = conditionKey(append(strconv.AppendInt(key[:0], int64(f.says), 10), ' '), &f.When, but)
		return key
	}
	rows = slices.DeleteFunc(rows, func(f *candidate) bool { return m.used[f.Fitment] })
	m.conditions.begin(len(rows))
	for _, f := range rows {
		m.conditions.add(keyOf(f))
	}
	index := map[string]int{}
	var out [][]*model.Fitment
	for n, f := range rows {
		if !m.conditions.may(n) {
			continue
		}
		i, ok := index[string(keyOf(f))]
		if !ok {
			i = len(out)
			index[string(key)] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], f.Fitment)
	}
	return out
}

// conditionKey writes all conditions of a row but one, and the platforms.
func conditionKey(key []byte, w *model.When, but *model.Trait) []byte {
	number := func(n int) { key = append(strconv.AppendInt(key, int64(n), 10), ' ') }
	if w.Years != nil && but != nil {
		key = append(key, "years "...)
		key = strconv.AppendBool(key, w.Years.Not)
		for _, s := range w.Years.Spans {
			number(s.From)
			number(s.To)
		}
	}
	for _, t := range w.Traits {
		if t.Trait == but {
			continue
		}
		key = append(key, '|')
		number(t.Trait.Index)
		for v := range t.Values.Values() {
			number(v)
		}
		if t.Line != nil {
			key = append(key, t.Cell()...)
		}
	}
	return key
}

func (m *merger) years(rows []*candidate) {
	for _, g := range m.groups(rows, nil) {
		slices.SortStableFunc(g, func(a, b *model.Fitment) int {
			return cmp.Compare(a.When.Years.Spans[0].From, b.When.Years.Spans[0].From)
		})
		for len(g) > 0 {
			n, span := 1, g[0].When.Years.Spans[0]
			for n < len(g) && g[n].When.Years.Spans[0].From <= span.To+1 {
				span.To = max(span.To, g[n].When.Years.Spans[0].To)
				n++
			}
			m.tell(g[:n], "Years", spanCell(span))
			g = g[n:]
		}
	}
}

// spanCell writes a range of years as a cell.
func spanCell(s model.Span) string {
	switch {
	case s.From == model.FirstYear && s.To == model.LastYear:
		return "any"
	case s.From == model.FirstYear:
		return fmt.Sprintf("to %d", s.To)
	case s.To == model.LastYear:
		return fmt.Sprintf("%d+", s.From)
	case s.From == s.To:
		return fmt.Sprint(s.From)
	}
	return fmt.Sprintf("%d-%d", s.From, s.To)
}

func (m *merger) trait(t *model.Trait, rows []*candidate) {
	for _, g := range m.groups(rows, t) {
		var all *model.TraitSet
		for _, f := range g {
			for _, named := range f.When.Traits {
				if named.Trait != t {
					continue
				}
				if all != nil {
					named = all.Or(named)
				}
				all = &named
			}
		}
		m.tell(g, t.Name, setCell(*all))
	}
}

// setCell writes a condition on a trait as a cell.
func setCell(set model.TraitSet) string {
	if set.Line != nil {
		return set.Cell()
	}
	names, absent := set.Names()
	switch {
	case len(names) == len(set.Trait.Values) && absent:
		return "any"
	case absent:
		names = append(names, "n/a")
	}
	return strings.Join(names, ", ")
}

func (m *merger) tell(g []*model.Fitment, column, text string) {
	if len(g) < 2 {
		return
	}
	slices.SortFunc(g, func(a, b *model.Fitment) int { return cmp.Compare(a.Row, b.Row) })
	rows := make([]string, len(g))
	var cells []finding.Cell
	for i, f := range g {
		m.used[f] = true
		rows[i] = fmt.Sprint(f.Row)
		cells = appendCell(cells, f.At)
	}
	if cause := m.owed.Partly(g[0].At.Sheet); cause != nil {
		cause.Owe(finding.RowsMergeable, 1) // what is not read may tell them apart
		return
	}
	m.report(&finding.Finding{Code: finding.RowsMergeable, Severity: finding.Note,
		Message:  fmt.Sprintf("rows %s say the same and could be one row with %q under %s", word.List(rows, "and"), text, column),
		Constant: fmt.Sprintf("rows say the same and could be one row with %q under %s", text, column),
		Cells:    cells,
		Fix:      fmt.Sprintf("write %q under %s in row %s and delete row %s", text, column, rows[0], word.List(rows[1:], "and"))})
}
