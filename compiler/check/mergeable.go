package check

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

var rowsMergeable = &Check{
	Kind: finding.Kind{Code: "rows-mergeable", Severity: "note",
		Summary: "fitment rows that say the same and could be one row",
		Doc:     "The rows differ in one condition only: their years follow on one another, or they name different values of one trait. One row is quicker to read, and cannot come to disagree with itself.",
		Before:  "Fitment!A2  H7  B2  2004-2008  C2  HD-20\nFitment!A3  H7  B3  2009-2012  C3  HD-20",
		After:   "Fitment!A2  H7  B2  2004-2012  C2  HD-20"},
	Catalogue: func(c *Catalogue) {
		m := merger{report: c.Report, used: map[*model.Fitment]bool{}}
		for _, f := range c.Fitments {
			// A row of which no cell is needed is told as redundant.
			if slices.ContainsFunc(f.Cells, func(fc *model.FitCell) bool { return c.Needed[fc] }) {
				m.rows = append(m.rows, f)
			}
		}
		m.years()
		for _, t := range c.Traits {
			m.trait(t)
		}
	},
}

// merger looks for rows to join; each is joined once.
type merger struct {
	rows   []*model.Fitment
	used   map[*model.Fitment]bool
	report func(*finding.Finding)
}

// groups gives the rows that are alike in all but one condition, in order.
func (m *merger) groups(key func(*model.Fitment) (string, bool)) [][]*model.Fitment {
	index := map[string]int{}
	var out [][]*model.Fitment
	for _, f := range m.rows {
		k, ok := key(f)
		if m.used[f] || !ok {
			continue
		}
		i, ok := index[k]
		if !ok {
			i = len(out)
			index[k] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], f)
	}
	return out
}

func (m *merger) years() {
	for _, g := range m.groups(func(f *model.Fitment) (string, bool) {
		return saying(f) + platforms(&f.When) + traits(&f.When, nil), f.When.Years != nil && !f.When.Years.Not && len(f.When.Years.Spans) == 1
	}) {
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

func (m *merger) trait(t *model.Trait) {
	for _, g := range m.groups(func(f *model.Fitment) (string, bool) {
		return saying(f) + platforms(&f.When) + fmt.Sprintf("%v\x00", f.When.Years) + traits(&f.When, t), named1(&f.When, t) != nil
	}) {
		all := space.Set{}
		for _, f := range g {
			all = all.Or(named1(&f.When, t))
		}
		m.tell(g, t.Name, setCell(t, all))
	}
}

// named1 gives the set that a condition names of a trait, nil where it names none.
func named1(w *model.When, t *model.Trait) space.Set {
	for _, s := range w.Traits {
		if s.Trait == t {
			return s.Values
		}
	}
	return nil
}

// setCell writes a set of values as a cell.
func setCell(t *model.Trait, set space.Set) string {
	names, absent := model.TraitSet{Trait: t, Values: set}.Names()
	switch {
	case len(names) == len(t.Values) && absent:
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
	slices.SortFunc(g, func(a, b *model.Fitment) int { return cell.Compare(a.At, b.At) })
	rows := make([]string, len(g))
	places := make([]cell.Place, len(g))
	for i, f := range g {
		m.used[f] = true
		rows[i], places[i] = fmt.Sprint(f.At.Pos.Row), f.At
	}
	m.report(&finding.Finding{Code: "rows-mergeable", Severity: finding.Note,
		Message: fmt.Sprintf("rows %s say the same and could be one row with %q under %s", model.List(rows, "and"), text, column),
		Cells:   finding.At(places...),
		Fix:     fmt.Sprintf("write %q under %s in row %s and delete row %s", text, column, rows[0], model.List(rows[1:], "and"))})
}

// saying is equal for two rows of one sheet that say and print the same.
func saying(f *model.Fitment) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%p %d\x00", f.At.Sheet, f.Precedence)
	cells := slices.Clone(f.Cells)
	slices.SortFunc(cells, func(x, y *model.FitCell) int { return cmp.Compare(x.Position.Index, y.Position.Index) })
	for _, c := range cells {
		fmt.Fprintf(&b, "%d\x01%s\x01%s\x01", c.Position.Index, Says(c.Fits), c.Fits.Text)
		for _, n := range c.Notes {
			fmt.Fprintf(&b, "%s\x02", n.Text)
		}
	}
	return b.String()
}

func platforms(w *model.When) string {
	if w.Platforms == nil {
		return "any\x00"
	}
	var b strings.Builder
	for _, p := range w.Platforms {
		fmt.Fprintf(&b, "%d,", p.Index)
	}
	return b.String() + "\x00"
}

// traits writes all conditions on traits but those on one.
func traits(w *model.When, but *model.Trait) string {
	var b strings.Builder
	for _, s := range w.Traits {
		if s.Trait != but {
			fmt.Fprintf(&b, "%d=%s\x00", s.Trait.Index, s.Values)
		}
	}
	return b.String()
}
