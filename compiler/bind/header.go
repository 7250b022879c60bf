package bind

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// columnsOf gives the columns that a kind of sheet defines.
func columnsOf(kind string) []string {
	var out []string
	for _, c := range schema.Columns(kind) {
		out = append(out, c.Name)
	}
	return out
}

// aSheet names a sheet of the kind: an Accepted sheet, a Kits sheet.
func aSheet(kind string) string {
	article := "a "
	if strings.ContainsRune("aeiou", rune(kind[0])) {
		article = "an "
	}
	return article + schema.Title(kind) + " sheet"
}

// headers reports the columns of all sheets of a kind that mean nothing.
func (b *binder) headers(kind string) {
	for _, t := range b.kinds[kind] {
		b.strange(t)
	}
}

func (b *binder) strange(t *table.Table) {
	further := schema.FurtherOf(t.Kind)
	if !t.Headed || further.Properties || further.Languages {
		return // which row the header is has been reported; or every column is kept, or looked at by itself
	}
	for _, c := range t.Columns {
		if c.Known {
			continue
		}
		if _, isTrait := b.lexicon.Traits.Find(c.Name); isTrait && further.Traits {
			continue
		}
		b.unknownHeader(t, c, "")
	}
}

// unknownHeader reports a column that means nothing, with the name that is meant: the
// nearest one, or the one that its cells speak for.
func (b *binder) unknownHeader(t *table.Table, c table.Column, more string) {
	if b.quiet || b.suspects[t.Place(c.At)] != nil {
		return // told with the column beside it
	}
	what, further := "no column of "+aSheet(t.Kind), schema.FurtherOf(t.Kind)
	switch {
	case t.Kind == schema.Fitment:
		what = "no column of a Fitment sheet, no trait and no position"
	case further.Traits:
		what += " and no trait"
	}
	f := &finding.Finding{Code: finding.HeaderUnknown, Severity: finding.Error, Cells: finding.At(t.Place(c.At)),
		Message: fmt.Sprintf("%q is %s", c.Name, what)}
	m := b.meaning(t, c, more == "")
	if further.Traits && m.undeclared(t, c) && (b.owed(finding.HeaderUnknown, schema.Traits, c.Name) || further.Positions && b.owed(finding.HeaderUnknown, schema.Positions, c.Name) || b.consequence(t.Kind)) {
		return
	}
	m.tell(f)
	f.Message += more
	b.Report(f)
	b.setAside(t, m, f)
}

// nearlyOwn reports further columns of a Parts sheet that are probably one of its own,
// misspelt: as a property of the parts, Linesize would check nothing.
func (b *binder) nearlyOwn(t *table.Table) {
	own := columnsOf(t.Kind)
	for _, c := range t.Columns {
		own = slices.DeleteFunc(own, func(name string) bool { return c.Known && name == c.Name })
	}
	for _, c := range t.Columns {
		near := word.Slip(c.Name, own)
		if c.Known || near == "" {
			continue
		}
		b.Report(&finding.Finding{Code: finding.HeaderUnknown, Severity: finding.Warning,
			Message: fmt.Sprintf("%q is kept as a property of the parts, and is nearly the column %s, which the sheet does not have", c.Name, near),
			Cells:   finding.At(t.Place(c.At)),
			Fix:     fmt.Sprintf("write %s if that is meant, or give the property a name that is less like it", near)})
	}
}

// suspected gives what was told of a column that is probably a condition: rows with a
// value under it are about fewer vehicles than they would say without it.
func (b *binder) suspected(t *table.Table, c *table.Column) *finding.Finding {
	if len(b.suspects) == 0 {
		return nil
	}
	return b.suspects[t.Place(c.At)]
}

// consequence counts a column that cannot be found because the sheet that would
// declare it is missing.
func (b *binder) consequence(kind string) bool {
	switch {
	case len(b.kinds[schema.Traits]) == 0 || b.unheaded(schema.Traits):
		b.absent[schema.Traits]++
	case kind == schema.Fitment && (len(b.kinds[schema.Positions]) == 0 || b.unheaded(schema.Positions)):
		b.absent[schema.Positions]++
	default:
		return false
	}
	return true
}

// traitAt gives the trait of each column of a table, nil for others.
func (b *binder) traitAt(t *table.Table) []*model.Trait {
	out := make([]*model.Trait, len(t.Columns))
	for i, c := range t.Columns {
		if tr, ok := b.lexicon.Traits.Find(c.Name); ok && !c.Known && b.suspects[t.Place(c.At)] == nil {
			out[i] = tr
		}
	}
	return out
}
