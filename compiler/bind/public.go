package bind

import (
	"slices"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// columnList is a Settings row that names columns of Parts.
type columnList struct {
	text string
	at   cell.Place
}

// publicity is what Settings say of the further columns of Parts, by name.
type publicity struct{ public, internal map[string]bool }

// publicColumns settles which properties are for the world. A text may be what a part
// costs or who makes it, so it is not, and neither is a number whose column states no
// unit: only a Settings row publishes them. What is measured is, and what is calculated.
func (b *binder) publicColumns() {
	names := b.furtherColumns()
	say := publicity{b.columnNames(b.listed.public, names), b.columnNames(b.listed.internal, names)}
	for _, name := range names {
		if key := word.Fold(name); say.public[key] && say.internal[key] {
			b.fail(finding.DeclaredTwice, b.listed.public.at, "%s stands under public columns and under internal columns, so it is not published; take it out of one of the two", name)
		}
	}
	for _, p := range b.cat.Parts {
		for i := range p.Properties {
			q := &p.Properties[i]
			q.Public = say.shows(b.cat, p, q)
		}
	}
}

// furtherColumns gives the properties that parts may have: the columns of Parts sheets
// that are not the sheet's own, and what is calculated.
func (b *binder) furtherColumns() []string {
	var out []string
	seen := map[string]bool{}
	add := func(name string) {
		if key := word.Fold(name); name != "" && !seen[key] {
			seen[key] = true
			out = append(out, name)
		}
	}
	for _, t := range b.kinds[schema.Parts] {
		for _, c := range t.Columns {
			if !c.Known {
				add(c.Name)
			}
		}
	}
	b.each(schema.Calculated, func(r row) { add(r.name("Name")) })
	return out
}

// columnNames reads a list of columns. A name that holds a comma is understood where it
// stands alone or between semicolons.
func (b *binder) columnNames(list columnList, names []string) map[string]bool {
	out, known := map[string]bool{}, map[string]bool{}
	for _, n := range names {
		known[word.Fold(n)] = true
	}
	take := func(text string) bool {
		key := columnKey(text, known)
		out[key] = out[key] || known[key]
		return known[key]
	}
	for _, piece := range strings.FieldsFunc(list.text, func(r rune) bool { return r != ',' && grammar.Separator(r) }) {
		if take(piece) {
			continue
		}
		for _, name := range strings.Split(piece, ",") {
			if name = strings.Join(strings.Fields(name), " "); name != "" && !take(name) {
				b.unlisted(name, names, list.at)
			}
		}
	}
	return out
}

// columnKey folds the name of a column, which may be written with the unit of its header.
func columnKey(text string, known map[string]bool) string {
	key := word.Fold(text)
	if bare, _, has := strings.Cut(key, "["); has && !known[key] {
		return strings.TrimSpace(bare)
	}
	return key
}

// unlisted reports a name under public columns or internal columns that is no property.
func (b *binder) unlisted(name string, names []string, at cell.Place) {
	own := columnsOf(schema.Parts)
	if i := slices.IndexFunc(own, func(c string) bool { return word.Fold(c) == word.Fold(name) }); i >= 0 {
		b.fail(finding.ReferenceUnknown, at, "%s is a column that every Parts sheet may have, and it is always published; the list names further columns only", own[i])
		return
	}
	b.unknown(finding.ReferenceUnknown, schema.Parts, "further column of Parts", name, lexicon.List(names), at)
}

// shows tells whether a property of a part is for the world. Until then Public says that
// its column is measured.
func (s publicity) shows(cat *model.Catalogue, p *model.Part, q *model.Property) bool {
	switch key := word.Fold(q.Name); {
	case s.internal[key]:
		return false
	case s.public[key]:
		return true
	case q.By == nil:
		return q.Public
	}
	return !s.fromInternal(cat, p, q.By)
}

// fromInternal tells whether a value of a part is calculated from what is under internal
// columns, at once or by way of what is calculated from that: its formula is printed, and
// would give the rest away.
func (s publicity) fromInternal(cat *model.Catalogue, p *model.Part, by *model.Calculated) bool {
	for _, id := range by.Formula.Uses {
		key := word.Fold(cat.Figures[id].Name)
		if s.internal[key] {
			return true
		}
		i := slices.IndexFunc(p.Properties, func(q model.Property) bool { return word.Fold(q.Name) == key })
		if i >= 0 && p.Properties[i].By != nil && !s.shows(cat, p, &p.Properties[i]) {
			return true
		}
	}
	return false
}
