package bind

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/intake/table/glyph"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// names finds declared things by name, with case and white space folded.
type names[T any] struct {
	by   map[string]T
	list []string // as declared
}

func (n *names[T]) add(name string, v T) {
	if n.by == nil {
		n.by = map[string]T{}
	}
	n.by[word.Fold(name)] = v
	n.list = append(n.list, name)
}

func (n *names[T]) find(name string) (T, bool) {
	v, ok := n.by[word.Fold(name)]
	return v, ok
}

// unknown reports a name that nothing declares. Where the whole kind of sheet that
// declares such names is missing, it is a consequence of that and only counted.
func (b *binder) unknown(code finding.Code, kind, what, name string, list []string, at cell.Place) {
	if b.quiet || b.owed(code, kind, name) {
		return
	}
	if b.nameless(kind) {
		b.absent[kind]++
		return
	}
	if len(list) == 0 {
		b.fail(code, at, "%s %q is not declared, and no %s is", what, name, what)
		return
	}
	b.fail(code, at, "no %s is called %q%s", what, name, b.hint(what, name, list))
}

// hint is hint, made once for each name: a column may hold one that is misspelt in every row.
func (b *binder) hint(what, name string, list []string) string {
	return once(&b.hints, fmt.Sprint(what, 0, len(list), 0, name), func() string { return hint(name, list) })
}

// once gives what f makes of a key, which is made the first time.
func once[T any](made *map[string]T, key string, f func() T) T {
	if v, ok := (*made)[key]; ok {
		return v
	}
	if *made == nil {
		*made = map[string]T{}
	}
	v := f()
	(*made)[key] = v
	return v
}

// nameless tells whether nothing can be declared, since the kind of sheet that would is
// missing or has no header that can be read.
func (b *binder) nameless(kind string) bool { return len(b.kinds[kind]) == 0 || b.unheaded(kind) }

// hint names the name that looks the same, the nearest one if no other is as near, or all
// of them where they are few.
func hint(name string, list []string) string {
	if d := looksLike(name, list); d != "" {
		return d
	}
	if n := word.Sole(name, list); n != "" {
		return "; did you mean " + n + "?"
	}
	switch n := len(list); {
	case n == 1:
		return "; there is " + list[0]
	case n <= 8:
		return "; there are " + word.List(list, "and")
	}
	return ""
}

// looksLike names the name that looks the same, with what makes it another one.
func looksLike(name string, list []string) string {
	plain := glyph.ASCII(name)
	for _, n := range list {
		if plain && glyph.ASCII(n) {
			continue // what differs can be seen
		}
		if d := difference(name, n); d != "" {
			return fmt.Sprintf("; did you mean %s? It looks the same, but %s", n, d)
		}
	}
	return ""
}

// cases are the ways to write a name in which look-alikes are found.
func cases() []func(string) string {
	return []func(string) string{strings.TrimSpace, word.Fold, strings.ToUpper}
}

// difference says where two names that look alike are not the same, in the case in which
// they are written or else in small or capital letters: Н looks like H, and н like no h.
func difference(name, other string) string {
	for _, in := range cases() {
		if d := glyph.Difference(in(name), in(other)); d != "" {
			return d
		}
	}
	return ""
}

func (b *binder) unheaded(kind string) bool {
	for _, t := range b.kinds[kind] {
		if t.Headed {
			return false
		}
	}
	return true
}

// declares names the sheets without which other sheets mean nothing, with what they
// declare. Traits and Parts are missed only where a name would be theirs: a catalogue
// can do with model years alone, and a first one with no part.
var declares = []struct {
	kind, what string
	needed     bool
}{
	{schema.Platforms, "chassis platforms", true},
	{schema.Traits, schema.Traits, false},
	{schema.Vehicles, schema.Vehicles, true},
	{schema.Positions, schema.Positions, true},
	{schema.Parts, "part numbers", false},
}

// missing reports kinds of sheet that a catalogue cannot do without, with how many
// names could not be found because of each. It tells whether anything about vehicles
// would only repeat that.
func (b *binder) missing() (headless bool) {
	for _, d := range declares {
		n := b.absent[d.kind]
		follows := ""
		if n > 0 {
			follows = fmt.Sprintf("; %d names in other sheets cannot be found because of it", n)
			if n == 1 {
				follows = "; one name in another sheet cannot be found because of it"
			}
		}
		headless = headless || d.kind != schema.Parts && (n > 0 || d.needed && len(b.kinds[d.kind]) == 0 || b.lost(d.kind))
		switch {
		case b.owing[d.kind] != nil && len(b.kinds[d.kind]) == 0:
			b.owing[d.kind][""].Owe(finding.SheetMissing, 1)
		case len(b.kinds[d.kind]) == 0 && (d.needed || n > 0):
			b.missed(cell.Place{}, fmt.Sprintf("there is no sheet %s, so the catalogue has no %s", schema.Title(d.kind), d.what), follows)
		case n > 0:
			b.missed(cell.Place{Sheet: b.kinds[d.kind][0].Sheet},
				fmt.Sprintf("the sheet %s has no header that can be read, so the catalogue has no %s", schema.Title(d.kind), d.what), follows)
		}
	}
	if n := b.absent[schema.Cautions]; n > 0 {
		b.missed(cell.Place{}, "there is no sheet Cautions", fmt.Sprintf(", and %d cells name cautions", n))
	}
	return headless || b.headless || b.lost(schema.Fitment)
}

// lost tells whether a sheet of the kind has rows under no header that can be read:
// what they would say is missing everywhere, and the header has been told.
func (b *binder) lost(kind string) bool {
	return slices.ContainsFunc(b.kinds[kind], func(t *table.Table) bool { return !t.Headed && len(t.Records) > 0 })
}

// missed reports a sheet that is missing, with what follows from it.
func (b *binder) missed(at cell.Place, what, follows string) {
	b.Report(&finding.Finding{Code: finding.SheetMissing, Severity: finding.Error, Message: what + follows, Constant: what, Cells: finding.At(at)})
}
