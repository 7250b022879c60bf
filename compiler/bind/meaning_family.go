package bind

import (
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// byFamily gives the one position without a column on the sheet at which other Fitment
// sheets offer parts of the families under a column that means nothing; nil where none or
// several do.
func (b *binder) byFamily(t *table.Table, c table.Column) *model.Position {
	here := b.familiesUnder(t, c)
	var found *model.Position
	for _, p := range b.cat.Positions {
		if b.has(t, p.Name) || !b.fittedThere(p, here) {
			continue
		}
		if found != nil {
			return nil
		}
		found = p
	}
	return found
}

// fittedThere tells whether a column for a position offers parts of the families.
func (b *binder) fittedThere(p *model.Position, families map[string]bool) (out bool) {
	for _, t := range b.kinds[schema.Fitment] {
		for i, c := range t.Columns {
			if word.Fold(c.Name) == word.Fold(p.Name) {
				b.eachOffer(t, i, func(family string) { out = out || families[family] })
			}
		}
	}
	return out
}

// eachOffer gives the families of the parts under a column of a Fitment sheet.
func (b *binder) eachOffer(t *table.Table, column int, f func(family string)) {
	seen := map[string]bool{}
	for i := range t.Records {
		for k := range t.Records[i].Fields {
			field := &t.Records[i].Fields[k]
			if int(field.Column) != column || field.Broken || seen[field.Text] {
				continue
			}
			seen[field.Text] = true
			for _, piece := range grammar.Severed(field.Text) {
				number, _ := grammar.Uncounted(strings.TrimSpace(piece))
				if p, ok := b.lexicon.Part(number); ok && p.Family != "" {
					f(word.Fold(p.Family))
				}
			}
		}
	}
}
