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
		traits, above := b.traitAt(t), ""
		for i := range t.Records {
			above = b.complaint(row{t, &t.Records[i]}, traits, spelled, above)
		}
	}
}

// complaint reads a row, and gives its complaint. One that lacks what it must have is set aside, so that nothing is
// said of what it might have answered; a row without a complaint belongs to the one above.
func (b *binder) complaint(r row, traits []*model.Trait, spelled map[string]string, above string) string {
	c := &model.Complaint{Name: r.name("Complaint"), When: b.when(r, traits),
		Helps: r.text("How it helps"), Check: r.text("Check first"), Source: r.text("Source"),
		At: r.at("Complaint"), PlaceAt: r.at("Position"), OrderAt: r.at("Order")}
	if n, ok := r.whole("Order"); ok {
		c.Order = model.Number{Rat: big.NewRat(int64(n), 1)}
	}
	var known, kin bool
	c.Position, known = b.placeOf(r)
	c.Family, kin = b.familyOf(r)
	blank := r.name("Position") == "" && r.name("Family") == ""
	empty := b.emptyWords(r, "Complaint", "How it helps", "Check first")
	switch {
	case !known, !kin, blank, empty, c.Name == "", c.Helps == "":
		c.When.SetAside = true // each has been told, those that are required by the schema
	case c.Position == nil && c.Family == "":
		b.fail(finding.ConditionMalformed, c.PlaceAt, "the complaint %q is about any place, which tells nobody where to look; name a position or a family", c.Name)
		c.When.SetAside = true
	}
	if c.Position == nil && r.name("Family") != "" {
		c.PlaceAt = r.at("Family")
	}
	if c.Name == "" || placeholder(c.Name) {
		if c.Name = above; above == "" {
			return ""
		}
	}
	if first, known := spelled[word.Fold(c.Name)]; known {
		c.Name = first
	} else {
		spelled[word.Fold(c.Name)] = c.Name
	}
	b.cat.Complaints = append(b.cat.Complaints, c)
	return c.Name
}

// emptyWords tells of cells that say nothing where guides print what they say, or the key of a caution, which is
// not looked up here. Rows with one are set aside.
func (b *binder) emptyWords(r row, columns ...string) (found bool) {
	for _, column := range columns {
		text := r.text(column)
		_, key := b.cautionNames.Find(text)
		switch {
		case placeholder(text):
			b.fail(finding.ValueInvalid, r.at(column), "%s is %q, which says nothing to who reads the guide; write it out%s", column, text, orBlank(r, column))
		case text != "" && key:
			b.fail(finding.ValueInvalid, r.at(column), "%s is %q, the key of a caution, and this column prints what stands in it; write the text out", column, text)
		default:
			continue
		}
		found = true
	}
	return found
}

// orBlank says that a column may be left blank, if it may.
func orBlank(r row, column string) string {
	if column == "Check first" || column == "Why" {
		return ", or leave the cell blank"
	}
	return ""
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
	b.emptyWords(r, "What to look at", "Why")
	if n.Look != "" {
		b.cat.Inspections = append(b.cat.Inspections, n)
	}
}
