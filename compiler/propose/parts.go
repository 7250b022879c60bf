package propose

import (
	"ferrule/compiler/propose/shape"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// partsToo reads a table that says what fits a second time, for what it says of the parts themselves,
// and drafts the parts of which it says nothing.
func (r *reading) partsToo() {
	c := the(r.all, PartNo)
	r.draftParts(c)
	if c == nil {
		return
	}
	about := r.aboutPart()
	if len(about) == 0 || r.knownParts(c) || !r.agree(c, about) {
		for _, a := range about {
			r.skip(a, "what the parts are called stands in the drafted Parts")
		}
		return
	}
	r.table(schema.Parts, Likely, "the same rows name the parts")
	r.sayParts(c, about)
}

// sayParts writes what the columns say of parts.
func (r *reading) sayParts(c *column, about []*column) {
	r.rule("is", r.where(c), "Part", c.sure, c.why)
	seen := map[string]bool{}
	for _, v := range c.Values {
		sign, parts := shape.Separate(v.Text)
		if len(parts) > 1 && !seen[sign] {
			seen[sign] = true
			spelled := word.Quote(sign)
			if sign == "" {
				spelled = "line break"
			}
			r.rule("split", r.where(c)+" "+spelled, "each", Likely, "each of the numbers is a part")
		}
	}
	if gaps, _ := r.gaps(c); gaps > 0 && r.repeats(c) {
		r.rule("down", r.where(c), "", Unsure, "a blank is as above")
	}
	for _, a := range about {
		r.rule("is", r.where(a), r.partColumn(a), a.sure, a.why)
	}
	for row := range r.t.Each {
		for _, number := range numbers(row.At(c.Col)) {
			r.b.parts.note(number)
		}
	}
}

// draftParts drafts the parts that the table names.
func (r *reading) draftParts(c *column) {
	name, family := the(r.all, Name), the(r.all, Family)
	inGrid := r.across != nil && r.partsInGrid()
	for row := range r.t.Each {
		if c != nil {
			for _, number := range numbers(row.At(c.Col)) {
				p := r.b.drafts.part(number)
				if name != nil && p.name == "" {
					p.name = trimmed(row.At(name.Col))
				}
				if family != nil && p.family == "" {
					p.family = trimmed(row.At(family.Col))
				}
			}
		}
		for _, o := range r.all {
			if o.role == PlaceOf || o.role == Grid && inGrid {
				for _, number := range numbers(row.At(o.Col)) {
					r.b.drafts.part(number)
				}
			}
		}
	}
	if r.across != nil && r.across.sort == PartNo {
		for _, o := range r.across.columns {
			r.b.drafts.part(trimmed(o.Head()))
		}
	}
}

// skip leaves a column out on purpose.
func (r *reading) skip(c *column, why string) {
	if c.Filled > 0 {
		r.rule("skip", r.where(c), "", Likely, why)
	}
}

// aloneParts reads a table that names parts and no vehicles.
func (r *reading) aloneParts() {
	c := the(r.all, PartNo)
	about := r.aboutPart()
	for _, o := range r.all {
		if o.role == Unclear && o.Filled > 0 && o.Head() != "" || o.role == Source {
			o.is(Property, o.Head(), Unsure, "whatever else stands beside a part is a property of it")
			about = append(about, o)
		}
	}
	r.table(schema.Parts, Likely, "it names parts and no vehicles")
	if !r.agree(c, about) {
		r.remark([]cell.Pos{r.corner()}, "", "a part stands in several rows that differ", "one row for each part, or another kind of sheet in the row table of Layouts")
	}
	r.sayParts(c, about)
	for _, o := range r.all {
		if n := o; n.role == Note && n.Filled > 0 {
			r.rule("is", r.where(n), "Summary", Unsure, "a remark on the part")
			r.remark(places(n.Values), trimmed(n.Values[0].Text), "read as the summary of the part, which guides print and which limits nothing", "a row of Compatibility where it limits the part")
		}
	}
}

// pairs reads a table of two numbers a row.
func (r *reading) pairs(kind string) {
	c := the(r.all, PartNo)
	r.table(kind, Likely, "two numbers stand in each row")
	r.rule("is", r.where(c), "Part", c.sure, c.why)
	first := the(r.all, Other)
	column := "Number"
	if kind == schema.Kits {
		first, column = the(r.all, Kit), "Kit"
	}
	r.rule("is", r.where(first), column, first.sure, first.why)
	for _, o := range r.all {
		switch {
		case o.role == Quantity && kind == schema.Kits, o.role == Source && kind == schema.References, o.role == Note && kind == schema.References:
			r.rule("is", r.where(o), titles[o.role], o.sure, o.why)
		}
	}
	if gaps, _ := r.gaps(first); gaps > 0 && r.repeats(first) {
		r.rule("down", r.where(first), "", Unsure, counted(gaps, "cell is", "cells are")+" blank below filled ones")
	}
	r.draftParts(c)
}
