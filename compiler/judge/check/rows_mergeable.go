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
		m := merger{report: c.Report, used: map[*model.Fitment]bool{}, owed: c.owed}
		says := sayings{index: map[string]int{}, words: map[*model.Fits]string{}}
		var all []*candidate
		var times []int // by what rows say: how many do
		for _, f := range c.Fitments {
			// A row of which no cell is needed is told as redundant.
			if !c.Reached[f] || !slices.ContainsFunc(f.Cells, func(fc *model.FitCell) bool { return c.Needed.Has(fc.At) }) {
				continue
			}
			x := &candidate{f, says.of(f)}
			if x.says == len(times) {
				times = append(times, 0)
			}
			times[x.says]++
			all = append(all, x)
		}
		naming := make([][]*candidate, len(c.Traits))
		var dated []*candidate
		for _, x := range all {
			if times[x.says] < 2 {
				continue // no other says the same
			}
			f := x.Fitment
			if y := f.When.Years; y != nil && !y.Not && len(y.Spans) == 1 {
				dated = append(dated, x)
			}
			for _, t := range f.When.Traits {
				naming[t.Trait.Index] = append(naming[t.Trait.Index], x)
			}
		}
		m.years(dated)
		for i, t := range c.Traits {
			m.trait(t, naming[i])
		}
	},
}

// merger looks for rows to join; each is joined once.
type merger struct {
	used   map[*model.Fitment]bool
	report func(*finding.Finding)
	owed   *owed.Ledger
}

// candidate is a row with what it says and prints, and of which platforms, as a number.
type candidate struct {
	*model.Fitment
	says int
}

// groups gives rows that are alike in all but one condition, several each, in order: but is
// the trait, or nil for the years.
func (m *merger) groups(rows []*candidate, but *model.Trait) [][]*model.Fitment {
	index := map[string]int{}
	var out [][]*model.Fitment
	var key []byte
	for _, f := range rows {
		if m.used[f.Fitment] {
			continue
		}
		key = conditionKey(append(strconv.AppendInt(key[:0], int64(f.says), 10), ' '), &f.When, but)
		i, ok := index[string(key)]
		if !ok {
			i = len(out)
			index[string(key)] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], f.Fitment)
	}
	return slices.DeleteFunc(out, func(g []*model.Fitment) bool { return len(g) < 2 })
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

// sayings numbers what rows say and print, and of which platforms: two rows of one sheet have
// one number exactly if all that is the same.
type sayings struct {
	index map[string]int
	words map[*model.Fits]string // what a cell says, made once: cells with one text share their Fits
	key   []byte
}

func (s *sayings) of(f *model.Fitment) int {
	key := append(append(s.key[:0], f.At.Sheet.File...), 0)
	key = append(append(key, f.At.Sheet.Name...), 0)
	key = append(strconv.AppendInt(key, int64(f.Precedence), 10), 0)
	for _, p := range f.When.Platforms {
		key = append(strconv.AppendInt(key, int64(p.Index), 10), 1)
	}
	key = append(key, 0)
	cells := f.Cells
	if byPosition := func(x, y *model.FitCell) int { return cmp.Compare(x.Position.Index, y.Position.Index) }; !slices.IsSortedFunc(cells, byPosition) {
		cells = slices.Clone(cells)
		slices.SortFunc(cells, byPosition)
	}
	for _, c := range cells {
		key = append(strconv.AppendInt(key, int64(c.Position.Index), 10), 1)
		key = append(append(key, s.says(c.Fits)...), 1)
		for _, n := range c.Notes {
			key = append(append(key, n.Text...), 2)
		}
	}
	s.key = key
	n, ok := s.index[string(key)]
	if !ok {
		n = len(s.index)
		s.index[string(key)] = n
	}
	return n
}

func (s *sayings) says(f *model.Fits) string {
	w, ok := s.words[f]
	if !ok {
		w = Says(f) + "\x01" + f.Text
		s.words[f] = w
	}
	return w
}
