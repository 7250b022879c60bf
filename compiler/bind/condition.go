package bind

import (
	"errors"
	"slices"
	"strings"

	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// when reads the condition columns of a row. Names that nothing declares set it
// aside.
func (b *binder) when(r row, traits []*model.Trait) model.When {
	var w model.When
	if f, ok := r.field("Platform"); ok {
		b.whenPlatform(r, f, &w)
	}
	if f, ok := r.field("Years"); ok && b.suspected(r.t, &r.t.Columns[f.Column]) == nil {
		b.whenYears(r, f, &w)
	}
	n := 0
	for i := range r.r.Fields {
		if traits[r.r.Fields[i].Column] != nil {
			n++
		}
	}
	if n > 0 {
		w.Traits = b.pools.sets.take(n)[:0]
	}
	for i := range r.r.Fields {
		f := &r.r.Fields[i]
		if t := traits[f.Column]; t != nil {
			b.whenTrait(r, *f, t, &w)
		} else if cause := b.suspected(r.t, &r.t.Columns[f.Column]); cause != nil {
			w.SetAside = true
			b.toBlame(cause)
		}
	}
	b.underTwice(r, &w)
	slices.SortFunc(w.Traits, func(x, y model.TraitSet) int { return x.Trait.Index - y.Trait.Index })
	return w
}

func (b *binder) whenYears(r row, f table.Field, w *model.When) {
	if f.Broken {
		w.SetAside = true
		return
	}
	years, why := b.lexicon.Years(f.Text)
	if why != "" {
		w.SetAside = true
		b.fail(finding.ConditionMalformed, r.place(f), "%s", why)
	}
	w.Years = years
}

func (b *binder) whenTrait(r row, f table.Field, t *model.Trait, w *model.When) {
	if f.Broken {
		w.SetAside = true
		return
	}
	c := b.traitCell(r, f, t)
	switch {
	case !c.Reads():
		w.SetAside = true
		b.badCondition(t, c.Fault, r.place(f))
	case !c.Any:
		w.Traits = append(w.Traits, model.TraitSet{Trait: t, Values: c.Set, Line: c.Line})
		if r.t.Kind != schema.Vehicles {
			b.beyond(r.place(f), t, c, w, finding.Warning)
		}
	}
}

// badCondition tells what is wrong with a condition on a trait.
func (b *binder) badCondition(t *model.Trait, bad lexicon.Fault, at cell.Place) {
	switch bad.Flaw {
	case lexicon.Undeclared:
		b.unknown(finding.ReferenceUnknown, schema.Traits, "value of "+t.Name, bad.Name, b.lexicon.Values(t), at)
	case lexicon.Unitless:
		b.fail(finding.SizeUnitless, at, "%s", bad.Says)
	default:
		b.fail(finding.ConditionMalformed, at, "%s", bad.Says)
	}
}

// traitCell reads a cell under a trait; a unit in the header is that of bare numbers.
func (b *binder) traitCell(r row, f table.Field, t *model.Trait) lexicon.Condition {
	if f.Broken {
		return lexicon.Condition{}
	}
	if unit := r.t.Columns[f.Column].Unit; unit != "" && t.Kind == model.Size {
		return b.lexicon.Condition(t, b.withUnit(t, f.Text, unit))
	}
	for len(b.conditions) <= t.Index {
		b.conditions = append(b.conditions, &shared[lexicon.Condition]{})
	}
	return b.conditions[t.Index].of(r.t, &f, func() (lexicon.Condition, bool) { return b.lexicon.Condition(t, f.Text), true })
}

// withUnit writes the header's unit behind a cell that is a bare number.
func (b *binder) withUnit(t *model.Trait, text, unit string) string {
	if _, err := measure.ParseSize(strings.TrimSpace(text), b.sizes()); errors.Is(err, measure.ErrUnitless) {
		return strings.TrimSpace(text) + " " + unit
	}
	return text
}

// whenPlatform reads a Platform cell. What it names that is read stays, also where the row is
// set aside.
func (b *binder) whenPlatform(r row, f table.Field, w *model.When) {
	if f.Broken {
		w.SetAside = true
		return
	}
	on, faults := b.lexicon.On(f.Text)
	w.Platforms, w.SetAside = on, w.SetAside || len(faults) > 0
	for _, bad := range faults {
		if bad.Flaw == lexicon.Undeclared {
			b.unknown(finding.ReferenceUnknown, schema.Platforms, "platform", bad.Name, &b.lexicon.Platforms, r.place(f))
		} else {
			b.fail(finding.ConditionMalformed, r.place(f), "%s", bad.Says)
		}
	}
}
