package fleet

import (
	"slices"
	"strings"

	"ferrule/compiler/model"
)

// Line is a part to be ordered for all vehicles together. Kits are ordered as kits: what they hold
// is not counted again.
type Line struct {
	Part        *model.Part
	Least, Most int64
	Vehicles    int64 // that take it, or may
}

// Caution is a text that is printed beside parts of some vehicles, or an inspection of them.
type Caution struct {
	Level     string // danger, warning, care (a rule of Compatibility), notice or note
	Text      string
	Positions []*model.Position // none: the vehicle as a whole
	Vehicles  int64
	whole     bool
}

// cautionLevels gives the levels, the gravest first.
func cautionLevels() []string { return []string{"danger", "warning", "care", "notice", "note"} }

// gather refuses rows whose vehicles do not exist, and adds up what is known of the others.
func (f *Fleet) gather() {
	var rows []Row
	for _, r := range f.Rows {
		if m := r.group.miss; m != nil {
			f.Refused = append(f.Refused, Refused{r.At, r.Says(), m.what, m.nearest, r.Carried})
			continue
		}
		rows = append(rows, r)
	}
	f.Rows = rows
	f.groups = slices.DeleteFunc(f.groups, func(g *group) bool { return g.miss != nil })
	f.sortRefused()
	f.answers()
	f.order()
	f.cautions()
	f.few()
}

// sortRefused puts what is not taken in the order of the rows.
func (f *Fleet) sortRefused() {
	sheet := map[string]int{}
	see := func(all []Refused) {
		for _, r := range all {
			if _, ok := sheet[r.At.Sheet]; !ok {
				sheet[r.At.Sheet] = len(sheet)
			}
		}
	}
	see(f.Refused)
	slices.SortStableFunc(f.Refused, func(a, b Refused) int {
		if a.At.Sheet != b.At.Sheet {
			return sheet[a.At.Sheet] - sheet[b.At.Sheet]
		}
		return int(a.At.Row - b.At.Row)
	})
}

// order adds up what all vehicles take.
func (f *Fleet) order() {
	at := map[*model.Part]int{}
	for _, g := range f.groups {
		seen := map[*model.Part]bool{}
		for _, p := range g.places {
			for _, it := range p.Items {
				k, known := at[it.Part]
				if !known {
					k = len(f.Order)
					at[it.Part] = k
					f.Order = append(f.Order, Line{Part: it.Part})
				}
				l := &f.Order[k]
				l.Least, l.Most = l.Least+it.Least*g.count, l.Most+it.Most*g.count
				if !seen[it.Part] {
					seen[it.Part] = true
					l.Vehicles += g.count
				}
			}
		}
	}
	declared := map[*model.Part]int{}
	for i, p := range f.cat.Parts {
		declared[p] = i
	}
	slices.SortStableFunc(f.Order, func(a, b Line) int { return declared[a.Part] - declared[b.Part] })
}

// cautions gathers the texts beside parts, and numbers them at the places that have them.
func (f *Fleet) cautions() {
	type text struct{ level, text string }
	at := map[text]int{}
	by := map[*Place][]int{}
	for _, g := range f.groups {
		seen := map[int]bool{}
		for _, p := range g.places {
			numbers, known := by[p]
			if !known {
				for _, n := range p.texts() {
					k, ok := at[text{n.Level, n.Text}]
					if !ok {
						k = len(f.Cautions)
						at[text{n.Level, n.Text}] = k
						f.Cautions = append(f.Cautions, n)
					}
					c := &f.Cautions[k]
					if !c.whole && !slices.Contains(c.Positions, p.Position) {
						c.Positions = append(c.Positions, p.Position)
					}
					numbers = append(numbers, k)
				}
				by[p] = numbers
			}
			for _, k := range numbers {
				if !seen[k] {
					seen[k] = true
					f.Cautions[k].Vehicles += g.count
				}
			}
		}
	}
	f.number(by)
}

// number sorts the cautions by their levels, and tells the places their numbers, from 1.
func (f *Fleet) number(by map[*Place][]int) {
	rank := func(c *Caution) int { return slices.Index(cautionLevels(), c.Level) }
	order := make([]int, len(f.Cautions))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return rank(&f.Cautions[a]) - rank(&f.Cautions[b]) })
	sorted := make([]Caution, len(order))
	place := make([]int, len(order))
	for i, k := range order {
		sorted[i], place[k] = f.Cautions[k], i+1
	}
	f.Cautions = sorted
	for p, numbers := range by {
		for _, k := range numbers {
			p.Cautions = append(p.Cautions, place[k])
		}
		slices.Sort(p.Cautions)
	}
}

// texts gives what is printed beside a place.
func (p *Place) texts() []Caution {
	var out []Caution
	for _, n := range p.Look {
		text := "before anything is fitted, look at this: " + n.Look
		if n.Why != "" {
			text += ": " + n.Why
		}
		out = append(out, Caution{Level: n.Level, Text: text, whole: n.Position == nil})
	}
	for _, n := range p.Notes {
		c := Caution{Level: "note", Text: strings.TrimSpace(n.Text)}
		if n.Caution != nil {
			c.Level = n.Caution.Level
		}
		out = append(out, c)
	}
	for _, text := range p.Care {
		out = append(out, Caution{Level: "care", Text: text})
	}
	return out
}
