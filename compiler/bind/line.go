package bind

import (
	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// beyond tells of values that none of the row's platforms has: elsewhere than in Vehicles they
// match nothing, and there something exists that is not known.
func (b *binder) beyond(at cell.Place, t *model.Trait, c lexicon.Condition, w *model.When, severity finding.Severity) {
	said := c.Outside(t, w.On(b.cat))
	if said.Message != "" {
		b.Report(&finding.Finding{Code: finding.ValueOutside, Severity: severity, Cells: finding.At(at), Message: said.Message, Fix: said.Fix})
	}
}

// traitExtent reads which values a trait on a line has, on the row's platform or on all of which
// no other row says it.
func (b *binder) traitExtent(r row, t *model.Trait, tell model.Tell) {
	f, ok := r.field("Value")
	if !ok {
		return // the schema says that it is required
	}
	if tell.Text != "" || tell.Picture.Name != "" || tell.Effort > 0 && tell.Platform != nil {
		t.Tell = append(t.Tell, tell)
	}
	var on []*model.Platform // nil: all
	if tell.Platform != nil {
		on = []*model.Platform{tell.Platform}
	}
	if f.Broken {
		b.partial(on, b.told(r.place(f))) // nobody knows which vehicles there are
		return
	}
	e := model.Extent{Platform: tell.Platform, At: r.place(f)}
	values, err := t.Kind.Line().Extent(f.Text)
	if err != nil {
		b.first = nil
		b.fail(finding.ConditionMalformed, e.At, "%s", err)
		b.partial(on, b.first)
		return
	}
	e.Values = values
	for _, old := range t.Extents {
		if old.Platform == e.Platform {
			b.twice("the extent of", t.Name, old.At, e.At)
			return
		}
	}
	t.Extents = append(t.Extents, e)
}
