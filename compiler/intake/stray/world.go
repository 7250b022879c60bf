package stray

import (
	"regexp"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
)

// world knows what other rows say, as far as a row that says its name alone is judged by
// it. All of it is found out when it is first asked for.
type world struct {
	tables    []*table.Table
	declared  map[string]map[string]bool // by kind of sheet
	mentioned map[string]map[string]bool // by kind of the sheet that would declare the name
}

// settings are the names that a row of Settings may hold alone.
var settings = [...]string{"title", "publisher", "release", "base url", "contact", "units", "decimal", "public columns", "internal columns", "languages"}

// declares tells whether a row that is known to be one says the name, so that a row which
// says it alone is an unfinished one of the same.
func (w *world) declares(kind, text string) bool {
	if w.declared == nil {
		w.declared = map[string]map[string]bool{"settings": {}}
		for _, s := range settings {
			w.declared["settings"][s] = true
		}
		for _, t := range w.tables {
			w.declare(t)
		}
	}
	key := word.Fold(text)
	switch kind {
	case "settings", "traits":
		return w.declared[kind][key]
	case "platforms":
		return w.names(kind, text)
	case "vehicles", "fitment", "facts", "compatibility", "accepted":
		return w.declared["platforms"][key] || key == "any"
	case "kits", "references":
		return w.declared["parts"][key]
	}
	return false
}

// declare remembers the names of rows that say more than them.
func (w *world) declare(t *table.Table) {
	name := map[string]string{"settings": "Setting", "platforms": "Platform", "traits": "Trait", "parts": "Part"}[t.Kind]
	if name == "" {
		return
	}
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
		if w.declares("fitment", p) {
			return true
		}
	}
	return strings.HasPrefix(word.Fold(text), "not ")
}

// names tells whether a cell or a heading of other sheets uses the text as the name of
// what sheets of the kind declare: parts, positions or platforms.
func (w *world) names(kind, text string) bool {
	if w.mentioned == nil {
		w.mentioned = map[string]map[string]bool{"parts": {}, "positions": {}, "platforms": {}}
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
		if t.Kind == "fitment" && !c.Known {
			w.mentioned["positions"][word.Fold(c.Name)] = true
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
	switch {
	case c.Name == "Fits", kind == "fitment" && !c.Known:
		return []string{"parts", "positions"} // a part, or with a position
	case c.Name == "Platform" && kind != "platforms":
		return []string{"platforms"}
	case c.Name == "Pair", c.Name == "Position" && kind != "positions":
		return []string{"positions"}
	case c.Name == "Kit", c.Name == "With", c.Name == "Replaced by", c.Name == "Part" && kind != "parts":
		return []string{"parts"}
	}
	return nil
}
