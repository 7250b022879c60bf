package bind

import (
	"math/big"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// complaints reads the Complaints sheets: what drivers say is wrong, and where to look. A complaint is
// called as its first row spells it.
func (b *binder) complaints() {
	b.headers(schema.Complaints)
	spelled := map[string]string{}
	for _, t := range b.kinds[schema.Complaints] {
		traits := b.traitAt(t)
		for i := range t.Records {
			b.complaint(row{t, &t.Records[i]}, traits, spelled)
		}
	}
}

func (b *binder) complaint(r row, traits []*model.Trait, spelled map[string]string) {
	c := &model.Complaint{Name: r.name("Complaint"), When: b.when(r, traits), Family: r.name("Family"),
		Helps: r.text("How it helps"), Check: r.text("Check first"), Source: r.text("Source"),
		At: r.at("Complaint"), PlaceAt: r.at("Position"), OrderAt: r.at("Order")}
	if n, ok := r.whole("Order"); ok {
		c.Order = model.Number{Rat: big.NewRat(int64(n), 1)}
	}
	if word.Fold(c.Family) == "any" {
		c.Family = ""
	}
	var known bool
	if c.Position, known = b.placeOf(r); !known {
		c.When.SetAside = true
	}
	if c.Family != "" && !b.families.Has(c.Family) {
		b.unknown(finding.ReferenceUnknown, schema.Parts, "family", c.Family, &b.families, r.at("Family"))
		c.When.SetAside = true
	}
	switch {
	case c.Name == "" || c.Helps == "" || r.name("Position") == "" && r.name("Family") == "":
		return // the schema says that they are required
	case c.Position == nil && c.Family == "" && known:
		b.fail(finding.ConditionMalformed, c.PlaceAt, "the complaint %q is about any place, which tells nobody where to look; name a position or a family", c.Name)
		return
	case c.Position == nil:
		c.PlaceAt = r.at("Family")
	}
	if first, known := spelled[word.Fold(c.Name)]; known {
		c.Name = first
	} else {
		spelled[word.Fold(c.Name)] = c.Name
	}
	b.cat.Complaints = append(b.cat.Complaints, c)
}

// placeOf reads a Position cell: nil is any; false says that nothing declares the name.
func (b *binder) placeOf(r row) (*model.Position, bool) {
	name := r.name("Position")
	if name == "" || word.Fold(name) == "any" {
		return nil, true
	}
	p, ok := b.lexicon.Positions.Find(name)
	if !ok {
		b.unknown(finding.ReferenceUnknown, schema.Positions, "position", name, &b.lexicon.Positions, r.at("Position"))
	}
	return p, ok
}

// inspections reads the Inspections sheets: what to look at before anything is fitted.
func (b *binder) inspections() {
	b.headers(schema.Inspections)
	for _, t := range b.kinds[schema.Inspections] {
		traits := b.traitAt(t)
		for i := range t.Records {
			b.inspection(row{t, &t.Records[i]}, traits)
		}
	}
}

func (b *binder) inspection(r row, traits []*model.Trait) {
	n := &model.Inspection{Look: r.text("What to look at"), When: b.when(r, traits), Level: r.oneOf("Level"),
		Why: r.text("Why"), Source: r.text("Source"), At: r.at("What to look at"), PlaceAt: r.at("Position")}
	if n.Level == "" {
		n.Level = "note"
		if r.text("Level") != "" {
			n.Level = model.Levels()[0] // whatever was meant, it must not be printed as less than that
		}
	}
	var known bool
	if n.Position, known = b.placeOf(r); !known {
		n.When.SetAside = true
	}
	if n.Look != "" {
		b.cat.Inspections = append(b.cat.Inspections, n)
	}
}
