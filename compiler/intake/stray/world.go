package stray

import (
	"regexp"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
)

// world knows what other rows say, as far as a row that says its name alone is judged by
// it. All of it is found out when it is first asked for.
type world struct {
	tables    []*table.Table
	declared  map[string]map[string]bool // by kind of sheet
	mentioned map[string]map[string]bool // by kind of the sheet that would declare the name
}

// declares tells whether a row that is known to be one says the name, so that a row which
// says it alone is an unfinished one of the same.
func (w *world) declares(kind, text string) bool {
	if w.declared == nil {
		w.declared = map[string]map[string]bool{schema.Settings: {}}
		for _, s := range schema.Words(schema.Settings, "Setting") {
			w.declared[schema.Settings][s] = true
		}
		for _, t := range w.tables {
			w.declare(t)
		}
	}
	key := word.Fold(text)
	switch kind {
	case schema.Settings, schema.Traits:
		return w.declared[kind][key]
	case schema.Platforms:
		return w.names(kind, text)
	case schema.Vehicles, schema.Fitment, schema.Facts, schema.Compatibility, schema.Accepted:
		return w.declared[schema.Platforms][key] || key == "any"
	case schema.Kits, schema.References:
		return w.declared[schema.Parts][key]
	}
	return false
}

// declare remembers the names of rows that say more than them.
func (w *world) declare(t *table.Table) {
	switch t.Kind {
	case schema.Settings, schema.Platforms, schema.Traits, schema.Parts:
	default:
		return // no row of these is known by its name alone
	}
	name := schema.Columns(t.Kind)[0].Name
	by := w.declared[t.Kind]
	if by == nil {
		by = map[string]bool{}
		w.declared[t.Kind] = by
	}
	for i := range t.Records {
		r := &t.Records[i]
		if f := under(t, r, name); f != nil && single(r) == nil {
			by[word.Fold(f.Text)] = true
		}
	}
}

// under gives the cell of a row under a column; nil where it is blank.
func under(t *table.Table, r *table.Record, column string) *table.Field {
	for i := range r.Fields {
		if t.Columns[r.Fields[i].Column].Name == column {
			return &r.Fields[i]
		}
	}
	return nil
}

// pieces part a condition, a fitment cell or a list into names.
var pieces = regexp.MustCompile(`(?i)\s+or\s+|\s*\+\s*|[,;\n\r]\s*|^\s*not\s+|^\s*with\s+|^\s*\d+\s*[x×]\s+`)

// lists tells whether one of the names in a Platform cell is declared.
func (w *world) lists(text string) bool {
	for _, p := range pieces.Split(text, -1) {
		if w.declares(schema.Fitment, p) {
			return true
		}
	}
	return strings.HasPrefix(word.Fold(text), "not ")
}

// names tells whether a cell or a heading of other sheets uses the text as the name of
// what sheets of the kind declare: parts, positions or platforms.
func (w *world) names(kind, text string) bool {
	if w.mentioned == nil {
		w.mentioned = map[string]map[string]bool{schema.Parts: {}, schema.Positions: {}, schema.Platforms: {}}
		for _, t := range w.tables {
			w.mention(t)
		}
	}
	return w.mentioned[kind][word.Fold(text)]
}

// mention remembers the names that a table uses.
func (w *world) mention(t *table.Table) {
	kinds := make([][]string, len(t.Columns))
	for i, c := range t.Columns {
		kinds[i] = namedUnder(t.Kind, c)
		if t.Kind == schema.Fitment && !c.Known {
			w.mentioned[schema.Positions][word.Fold(c.Name)] = true
		}
	}
	for i := range t.Records {
		for k := range t.Records[i].Fields {
			f := &t.Records[i].Fields[k]
			for _, kind := range kinds[f.Column] {
				w.mentioned[kind][word.Fold(f.Text)] = true
				for _, p := range pieces.Split(f.Text, -1) {
					w.mentioned[kind][word.Fold(p)] = true
				}
			}
		}
	}
}

// namedUnder gives the kinds of sheet that would declare the names under a column of a
// sheet; none for what declares them, and for other words.
func namedUnder(kind string, c table.Column) []string {
	own, known := schema.Find(kind, c.Name)
	switch declared := own.Holds.DeclaredBy(); {
	case own.Holds == schema.HoldsFits, !known && schema.FurtherOf(kind).Positions:
		return []string{schema.Parts, schema.Positions} // a part, or with a position
	case own.Declares && declared == kind:
		return nil
	case own.Holds == schema.HoldsPlatform, own.Holds == schema.HoldsPosition, own.Holds == schema.HoldsPart:
		return []string{declared}
	}
	return nil
}
