package bind

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/formula"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// limits reads the Limits sheets.
func (b *binder) limits() {
	b.headers(schema.Limits)
	names := formula.NewNames()
	b.figureNames(names, true)
	for _, f := range b.cat.Facts {
		n := formula.Name{Text: f.Name, What: "a fact of vehicles", ID: len(b.cat.Figures) + f.Index, Dim: f.Dimension, Unit: f.Unit}
		if b.unstated[f] {
			n.Why = "no row states " + f.Name + ", and its header has no unit, so nobody knows what it measures; write a unit into its header"
		}
		names.Add(n)
	}
	b.each(schema.Limits, func(r row) { b.limit(r, names) })
}

func (b *binder) limit(r row, names *formula.Names) {
	l := &model.Limit{Index: len(b.cat.Limits), Name: r.name("Limit"), Family: r.name("Family"),
		Left: r.name("Left"), Must: r.word("Must be"), Right: r.name("Right"),
		Warning: r.word("Effect") == "warning", Message: r.text("Message"), At: r.at("Limit")}
	if l.Name == "" {
		return // the schema says that it is required
	}
	known := true
	if name := r.name("Position"); name != "" && word.Fold(name) != "any" {
		if l.Position, known = b.lexicon.Positions.Find(name); !known {
			b.unknown(finding.ReferenceUnknown, schema.Positions, "position", name, &b.lexicon.Positions, r.at("Position"))
		}
	}
	if l.Family != "" && !b.families.Has(l.Family) {
		b.unknown(finding.ReferenceUnknown, schema.Parts, "family", l.Family, &b.families, r.at("Family"))
		known = false
	}
	left, okLeft := b.formula(r, "Left", names)
	right, okRight := b.formula(r, "Right", names)
	if must, ok := mustBe(l.Must); ok && okLeft && okRight {
		rule, err := formula.NewRule(left, must, right)
		if err != nil {
			b.fail(finding.FormulaMalformed, r.at("Left"), "%s", err)
		} else if known {
			l.Rule = rule
		}
	}
	b.cat.Limits = append(b.cat.Limits, l)
}

func mustBe(word string) (formula.Must, bool) {
	for _, m := range []formula.Must{formula.AtLeast, formula.AtMost, formula.EqualTo} {
		if word == m.String() {
			return m, true
		}
	}
	return 0, false
}
