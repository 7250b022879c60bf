package bind

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/formula"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// calculated reads the Calculated sheets and works out what they say of each part.
func (b *binder) calculated() {
	b.headers(schema.Calculated)
	var rows []*model.Calculated
	var texts []row
	b.each(schema.Calculated, func(r row) {
		if c := b.calculatedRow(r); c != nil {
			rows, texts = append(rows, c), append(texts, r)
		}
	})
	names := formula.NewNames()
	b.figureNames(names, false)
	for _, f := range b.cat.Facts {
		names.Add(formula.Name{Text: f.Name, What: "a fact of vehicles",
			Why: fmt.Sprintf("%s is a fact of vehicles, and a calculated value is about a part whatever it is fitted to", f.Name)})
	}
	for i, c := range rows {
		b.calculation(texts[i], c, names)
	}
	done := map[step]bool{}
	for _, c := range rows {
		b.circle(step{c, word.Fold(c.Family)}, nil, done)
	}
	used := map[*model.Calculated]bool{}
	for _, p := range b.cat.Parts {
		b.calculate(p, used)
	}
	for _, c := range rows {
		if c.Formula != nil && !used[c] {
			b.say(finding.CalculatedUnused, finding.Note, c.At, "no part states all that %s is calculated from", c.Figure.Name)
		}
	}
}

// calculatedRow reads a row without its formula; nil where it says nothing.
func (b *binder) calculatedRow(r row) *model.Calculated {
	name := r.name("Name")
	if name == "" || r.text("Formula") == "" {
		return nil // the schema says that they are required
	}
	c := &model.Calculated{Text: r.name("Formula"), Unit: measure.One, Family: r.name("Family"), Source: r.text("Source"), Note: r.text("Note"),
		At: r.at("Name"), TextAt: r.at("Formula")}
	f := b.figure(name, c.At)
	c.Figure = f.Figure
	if text := r.text("Unit"); text != "" {
		unit, ok := measure.ParseUnit(text)
		if !ok {
			b.unitUnknown(text, r.at("Unit"), "the cell, or leave it blank for a plain number")
			f.Computed = append(f.Computed, c)
			return nil
		}
		c.Unit = unit
	}
	if f.known && f.Dimension != c.Unit.Dimension() {
		b.fail(finding.FormulaMalformed, r.at("Unit"), "%s is %s in other rows, and here %s; write a unit of that kind, or give one of the two another name",
			f.Name, formula.Article(f.Dimension), formula.Article(c.Unit.Dimension()))
		return nil
	}
	if c.Family != "" && !b.families.Has(c.Family) {
		b.unknown(finding.ReferenceUnknown, schema.Parts, "family", c.Family, &b.families, r.at("Family"))
		f.Computed = append(f.Computed, c)
		return nil
	}
	if i := slices.IndexFunc(f.Computed, func(o *model.Calculated) bool { return word.Fold(o.Family) == word.Fold(c.Family) }); i >= 0 {
		b.twice("the calculated value", f.Name, f.Computed[i].At, c.At)
		return nil
	}
	f.known, f.Dimension = true, c.Unit.Dimension()
	if f.Unit == measure.NoUnit || len(f.cells) == 0 {
		f.Unit = c.Unit
	}
	f.Computed = append(f.Computed, c)
	return c
}

// calculation compiles the formula of a row.
func (b *binder) calculation(r row, c *model.Calculated, names *formula.Names) {
	f, ok := b.formula(r, "Formula", names)
	switch {
	case !ok:
	case f.Dimension() != c.Unit.Dimension():
		b.fail(finding.FormulaMalformed, c.TextAt, "the formula gives %s, and %s is %s; correct one of the two",
			formula.Article(f.Dimension()), unitWords(c.Unit), formula.Article(c.Unit.Dimension()))
	default:
		c.Formula = f
	}
}

func unitWords(u measure.Unit) string {
	if u == measure.One {
		return "a value without a unit"
	}
	return "what is measured in " + u.String()
}

// step is a calculated value on the way of circle, for parts of a family; "" is any.
type step struct {
	*model.Calculated
	family string
}

// circle goes from a calculated value to what it follows from, and takes out a formula
// that leads back to where it came from for one and the same part.
func (b *binder) circle(at step, way []step, done map[step]bool) {
	if i := slices.Index(way, at); i >= 0 {
		var words []string
		for _, s := range append(way[i:], at) {
			words = append(words, s.Figure.Name)
		}
		b.fail(finding.FormulaMalformed, at.TextAt, "%s follows from itself: %s", at.Figure.Name, strings.Join(words, " from "))
		at.Formula = nil
	}
	if at.Formula == nil || done[at] {
		return
	}
	way = append(slices.Clone(way), at)
	for _, id := range at.Formula.Uses {
		for _, next := range b.cat.Figures[id].Computed {
			family := word.Fold(next.Family)
			if family != "" && at.family != "" && family != at.family {
				continue // never about the same part
			}
			if family == "" {
				family = at.family
			}
			b.circle(step{next, family}, way, done)
		}
	}
	done[at] = true
}
