package bind

import (
	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema"
)

// breaks reads the Breaks sheets: when values of a trait are built.
func (b *binder) breaks() {
	b.headers(schema.Breaks)
	for _, t := range b.kinds[schema.Breaks] {
		traits := b.traitAt(t)
		for i := range t.Records {
			b.breakRow(row{t, &t.Records[i]}, traits)
		}
	}
}

func (b *binder) breakRow(r row, traits []*model.Trait) {
	out := &model.Break{When: b.when(r, traits), Source: r.text("Source"), Note: r.text("Note"), At: r.at("Value")}
	name := r.name("Trait")
	if _, ok := r.field("Platform"); !ok || name == "" {
		return // the schema says that both are required
	}
	t, ok := b.lexicon.Traits.Find(name)
	if !ok {
		b.unknown(finding.ReferenceUnknown, schema.Traits, "trait", name, &b.lexicon.Traits, r.at("Trait"))
		return
	}
	f, ok := r.field("Value")
	if !ok || f.Broken {
		return // the schema says that it is required, or it has been told
	}
	set, ok := b.breakValue(r, t, &out.When)
	if ok && !out.When.SetAside {
		out.Value = set
		b.cat.Breaks = append(b.cat.Breaks, out)
	}
}

// breakValue reads which values a row is about: it is written like a condition, and as in
// Vehicles `any` and `not` reach over values only.
func (b *binder) breakValue(r row, t *model.Trait, w *model.When) (model.TraitSet, bool) {
	f, _ := r.field("Value")
	c := b.lexicon.Condition(t, f.Text)
	out := model.TraitSet{Trait: t, Values: c.Set, Line: c.Line}
	switch {
	case !c.Reads():
		b.badCondition(t, c.Fault, r.place(f))
		return out, false
	case c.Any:
		return lexicon.EveryValue(t), true
	case !c.Not && c.Set.Has(t.Absent()):
		b.fail(finding.ConditionMalformed, r.place(f), "%q is no value that is built: Breaks says when a value is; write the values, or any for all of them", f.Text)
		return out, false
	}
	out.Values = c.Set.And(space.All(len(t.Values)))
	b.beyond(r.place(f), t, c, w, finding.Warning)
	return out, true
}
