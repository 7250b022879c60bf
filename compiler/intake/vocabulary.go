package intake

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
)

// vocabulary is by which words a sheet is known to belong to a catalogue: the columns of
// the kinds of sheet, and the traits and positions that the catalogue declares.
type vocabulary struct {
	kinds             []string
	columns, required map[string]map[string]bool // by kind; names folded
	traits, positions map[string]bool
}

func newVocabulary(tables []*table.Table) *vocabulary {
	v := &vocabulary{kinds: schema.Kinds(), columns: map[string]map[string]bool{}, required: map[string]map[string]bool{},
		traits: declaredUnder(tables, schema.Traits, "Trait"), positions: declaredUnder(tables, schema.Positions, "Position")}
	for _, kind := range v.kinds {
		v.columns[kind], v.required[kind] = map[string]bool{}, map[string]bool{}
		for _, c := range schema.Columns(kind) {
			v.columns[kind][word.Fold(c.Name)] = true
			if c.Required {
				v.required[kind][word.Fold(c.Name)] = true
			}
		}
	}
	return v
}

// declaredUnder gives the names that sheets of a kind declare.
func declaredUnder(tables []*table.Table, kind, column string) map[string]bool {
	out := map[string]bool{}
	for _, t := range tables {
		if t.Kind != kind {
			continue
		}
		for i := range t.Records {
			for k := range t.Records[i].Fields {
				if f := &t.Records[i].Fields[k]; t.Columns[f.Column].Name == column {
					out[word.Fold(f.Text)] = true
				}
			}
		}
	}
	return out
}

// like is how much a word is like the name of a kind.
type like uint8

const (
	unlike like = iota
	maybe       // it may be another word: Charts, Parts
	alike       // a slip of the hand, another number, or the name itself
)

// likeness compares two words in small letters.
func likeness(text, kind string) like {
	one := strings.TrimSuffix(kind, "s")
	switch {
	case text == kind, text == one, text == kind+"s":
		return alike
	case len(text) >= 6 && word.Slip(text, []string{kind}) != "":
		return alike
	case len(kind) >= 7 && strings.HasPrefix(text, one):
		return alike
	case word.Nearest(text, []string{kind}) != "", len(text) > len(one) && strings.HasPrefix(text, one):
		return maybe
	}
	return unlike
}

// letters gives the letters of a text, in small ones.
func letters(s string) string {
	return strings.ToLower(strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return r
		}
		return -1
	}, s))
}

// aside are words that people put to the name of a sheet that they set by.
var asideWords = [...]string{"copy", "copie", "kopie", "of", "old", "new", "back", "up", "backup", "bak", "bkp", "draft", "final", "archive", "archived", "prev", "previous", "orig",
	"original", "temp", "tmp", "test", "version", "ver", "rev", "revised", "edited", "wip", "the", "my", "our", "updated", "last", "latest", "current", "unused", "sheet", "tab", "table"}

// meant gives the kinds of which a stranger probably is, the likeliest first; none where
// it is something else.
func (v *vocabulary) meant(s *stranger) []string {
	if strings.HasPrefix(s.sheet.Name, "_") || len(s.top) == 0 {
		return nil
	}
	if kind := v.named(s); kind != "" {
		return []string{kind}
	}
	return v.headed(s.top)
}

// named gives the kind that a word of the name is like. Where that says too little, the
// sheet must have a column that the kind needs.
func (v *vocabulary) named(s *stranger) string {
	words := strings.FieldsFunc(strings.ToLower(s.sheet.Name), func(r rune) bool { return !unicode.IsLetter(r) })
	best, sure := "", unlike
	for i, w := range words {
		for _, kind := range v.kinds {
			is := likeness(w, kind)
			if is == alike && (i > 0 || len(kind) < 7) && !besides(words, i) {
				is = maybe // Notes on fitment, Size chart
			}
			if is > sure && (is == alike || v.needed(kind, s.top)) {
				best, sure = kind, is
			}
		}
	}
	return best
}

// besides tells whether all words but one are such as a copy is called by.
func besides(words []string, but int) bool {
	for i, w := range words {
		if i != but && len(w) > 1 && !slices.Contains(asideWords[:], w) {
			return false
		}
	}
	return true
}

// needed tells whether one of the rows holds a column that a kind needs.
func (v *vocabulary) needed(kind string, top [][]string) bool {
	return slices.ContainsFunc(top, func(row []string) bool {
		return slices.ContainsFunc(row, func(text string) bool { return v.required[kind][word.Fold(table.Head(text))] })
	})
}

// headed gives the kinds that could read one of the rows as their header, those first of
// which it holds most columns, and no others where it does not tell two apart by that.
func (v *vocabulary) headed(top [][]string) []string {
	for _, row := range top {
		names := map[string]bool{}
		for _, text := range row {
			names[word.Fold(table.Head(text))] = true
		}
		count := map[string]int{}
		for _, kind := range v.kinds {
			if v.reads(kind, names) {
				count[kind] = v.shared(kind, names)
			}
		}
		if len(count) == 0 {
			continue
		}
		out := slices.DeleteFunc(slices.Clone(v.kinds), func(k string) bool { return count[k] == 0 })
		slices.SortStableFunc(out, func(a, b string) int { return -cmp.Compare(count[a], count[b]) })
		return slices.DeleteFunc(out, func(k string) bool { return count[k] < count[out[0]] })
	}
	return nil
}

// shared counts the names that mean something on a sheet of the kind.
func (v *vocabulary) shared(kind string, names map[string]bool) int {
	n, further := 0, schema.FurtherOf(kind)
	for name := range names {
		if v.columns[kind][name] || further.Traits && v.traits[name] || further.Positions && v.positions[name] {
			n++
		}
	}
	return n
}

// reads tells whether names hold what a kind of sheet needs: the columns that must be
// there, and where that is one alone, something that only this kind has.
func (v *vocabulary) reads(kind string, names map[string]bool) bool {
	for name := range v.required[kind] {
		if !names[name] {
			return false
		}
	}
	if len(v.required[kind]) > 1 {
		return true
	}
	any := func(in map[string]bool) bool {
		for name := range names {
			if in[name] {
				return true
			}
		}
		return false
	}
	switch kind {
	case schema.Fitment:
		return any(v.positions) || names["position"] && names["fits"]
	case schema.Vehicles:
		return !any(v.positions) && (any(v.traits) || names["on the road"])
	case schema.Facts:
		return !any(v.positions) && names["source"] && (any(v.traits) || names["precedence"])
	}
	return v.shared(kind, names) > 1 // Positions and Parts
}
