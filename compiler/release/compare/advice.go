package compare

import (
	"fmt"
	"slices"

	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Advice is a row of Complaints or Inspections that differs. Rows are compared as they are written: what
// Was and Now say is the row in words, "" where a release has none.
type Advice struct {
	Sheet    string // Complaints or Inspections
	What     string // the complaint and its place, or what is looked at
	Was, Now string
	Old, New []cell.Place
}

// advised is a row of one release in words.
type advised struct {
	key, what, says string
	at              cell.Place
}

// advice gives the rows that differ, in the order of OLD and then of NEW. Inspections that are told as
// a Loss are none of them.
func (c *comparison) advice() []Advice {
	a, b := c.old.Catalogue, c.new.Catalogue
	out := differing("Complaints", complaintRows(a.Complaints), complaintRows(b.Complaints))
	lost := map[cell.Place]bool{}
	for _, l := range c.inspectionLosses() {
		lost[l.Old[0]] = true
	}
	return append(out, slices.DeleteFunc(differing("Inspections", inspectionRows(a.Inspections), inspectionRows(b.Inspections)),
		func(d Advice) bool { return len(d.Old) > 0 && lost[d.Old[0]] })...)
}

// differing pairs rows of one key: first those that say the same, then the others in their order.
func differing(sheet string, old, new []advised) []Advice {
	taken, of := make([]bool, len(new)), map[string][]int{}
	for i, n := range new {
		of[n.key] = append(of[n.key], i)
	}
	pair := func(o advised, same func(advised) bool) int {
		for _, i := range of[o.key] {
			if !taken[i] && same(new[i]) {
				taken[i] = true
				return i
			}
		}
		return len(new)
	}
	old = slices.DeleteFunc(slices.Clone(old), func(o advised) bool {
		return pair(o, func(n advised) bool { return n.says == o.says }) < len(new)
	})
	var out []Advice
	for _, o := range old {
		d := Advice{Sheet: sheet, What: o.what, Was: o.says, Old: []cell.Place{o.at}}
		if i := pair(o, func(advised) bool { return true }); i < len(new) {
			d.Now, d.New = new[i].says, []cell.Place{new[i].at}
		}
		out = append(out, d)
	}
	for i, n := range new {
		if !taken[i] {
			out = append(out, Advice{Sheet: sheet, What: n.what, Now: n.says, New: []cell.Place{n.at}})
		}
	}
	return out
}

func complaintRows(rows []*model.Complaint) []advised {
	var out []advised
	for _, c := range rows {
		what := fmt.Sprintf("%s: %s", c.Name, c.Place())
		says := with(c.Helps, "check first", c.Check, "where", whenWords(&c.When), "source", c.Source)
		if c.Order.Stated() {
			says = with(says, "order", c.Order.RatString())
		}
		out = append(out, advised{word.Fold(what), what, says, c.At})
	}
	return out
}

func inspectionRows(rows []*model.Inspection) []advised {
	var out []advised
	for _, n := range rows {
		what := inspected(n)
		out = append(out, advised{word.Fold(what), what, with(n.Level, "why", n.Why, "where", whenWords(&n.When), "source", n.Source), n.At})
	}
	return out
}

// inspected names an inspection.
func inspected(n *model.Inspection) string {
	if n.Position == nil {
		return n.Look
	}
	return fmt.Sprintf("%s (%s)", n.Look, n.Position.Name)
}

// with adds what is said behind a label, where anything is.
func with(says string, labelled ...string) string {
	for i := 0; i < len(labelled); i += 2 {
		if labelled[i+1] != "" {
			says += fmt.Sprintf("; %s: %s", labelled[i], labelled[i+1])
		}
	}
	return says
}

// inspectionLosses gives the Inspections rows of OLD, those that are a danger or a warning, that NEW has not
// or at a lower level. The vehicles that they are about are compared as advice.
func (c *comparison) inspectionLosses() []Loss {
	level := func(n *model.Inspection) int { return slices.Index(model.Levels(), n.Level) }
	var out []Loss
	gravest := map[string]*model.Inspection{}
	for _, n := range c.new.Catalogue.Inspections {
		key := word.Fold(inspected(n))
		if now := gravest[key]; now == nil || level(n) < level(now) {
			gravest[key] = n
		}
	}
	for _, old := range c.old.Catalogue.Inspections {
		now := gravest[word.Fold(inspected(old))]
		was := fmt.Sprintf("the %s %q", old.Level, inspected(old))
		switch {
		case level(old) > slices.Index(model.Levels(), "warning"):
		case now == nil:
			out = append(out, Loss{Sheet: "Inspections", Was: was, Old: []cell.Place{old.At}})
		case level(now) > level(old):
			out = append(out, Loss{Sheet: "Inspections", Was: was, Now: "a " + now.Level, Old: []cell.Place{old.At}, New: []cell.Place{now.At}})
		}
	}
	return out
}
