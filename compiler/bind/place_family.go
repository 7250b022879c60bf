package bind

import (
	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// positionFamilies reads which families of parts belong at a position. Of a list with a
// name that nothing declares the others are not kept either: what belongs there would be
// less than was meant.
func (b *binder) positionFamilies(r row, p *model.Position) {
	text := r.text("Family")
	p.FamilyAt = r.at("Family")
	if word.Fold(text) == "any" {
		p.AnyFamily = true
		return
	}
	said := grammar.ReadList(text).Take(b.families.Has)
	if said.Not {
		b.fail(finding.ConditionMalformed, p.FamilyAt, "Family lists what belongs at %s, and not what does not; write the families that do", p.Name)
		return
	}
	for _, name := range said.Names(b.families.Has) {
		if !b.families.Has(name) {
			b.unknown(finding.ReferenceUnknown, schema.Parts, "family", name, &b.families, p.FamilyAt)
			p.Families = nil
			p.AnyFamily = true
			return
		}
		p.Families = append(p.Families, name)
	}
}
