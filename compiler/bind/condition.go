package bind

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema"
	"ferrule/schema/word"
)

// condition is what a cell under a trait says.
type condition struct {
	set  space.Set // of the trait's values and Absent
	any  bool      // blank, or any
	not  bool      // the cell excludes values
	code finding.Code
	why  string      // not "": it cannot be read, and the row is set aside
	name string      // with ReferenceUnknown: the value that nothing declares
	line *model.Line // of a trait on a line, whose set holds its Absent or nothing
	said []linePiece // the pieces that line was read from
}

var orWord = regexp.MustCompile(`(?i)[\s\p{Z}]+or[\s\p{Z}]+`)

// condition reads a cell under a trait, as it reads outside Vehicles; each text once,
// since columns repeat.
func (b *binder) condition(t *model.Trait, text string) condition {
	known := b.known(t)
	c, ok := known.find(text)
	if !ok {
		c = b.readCondition(t, text)
		known.keep(text, c)
	}
	return c
}

// known is what has been read of cells under a trait.
func (b *binder) known(t *model.Trait) *memo[condition] {
	for len(b.conditions) <= t.Index {
		b.conditions = append(b.conditions, &memo[condition]{})
	}
	return b.conditions[t.Index]
}

func (b *binder) readCondition(t *model.Trait, text string) condition {
	if t.Kind.OnLine() {
		return readLine(t, text)
	}
	if i, ok := b.value(t, text); ok {
		return condition{set: space.SetOf(i)}
	}
	folded := word.Fold(text)
	switch folded {
	case "", "any":
		return condition{any: true}
	case "not":
		return malformed("%q stands alone; write which values it excludes", text)
	}
	declared := func(piece string) bool { _, ok := b.value(t, piece); return ok }
	pieces, not := list(text, declared)
	set, bad := b.values(t, text, pieces)
	if bad.why != "" || bad.name != "" {
		return b.amended(t, text, bad)
	}
	if not {
		set = set.Not(len(t.Values) + 1)
	}
	return condition{set: set, not: not}
}

// list cuts a cell into its pieces. A piece that is a declared name is that name,
// whatever it holds and begins with; `not` before the first piece stands for the whole
// list.
func list(text string, declared func(string) bool) (pieces []string, not bool) {
	for i, piece := range strings.FieldsFunc(text, separator) {
		piece = strings.Join(strings.Fields(piece), " ")
		if i == 0 {
			piece, not = cutNot(piece, declared)
		}
		if piece == "" || declared(piece) {
			pieces = appendFilled(pieces, piece)
			continue
		}
		for _, p := range strings.Split(orWord.ReplaceAllString(" "+piece+" ", "\n"), "\n") {
			pieces = appendFilled(pieces, strings.TrimSpace(p))
		}
	}
	return pieces, not
}

func appendFilled(pieces []string, piece string) []string {
	if piece == "" {
		return pieces
	}
	return append(pieces, piece)
}

// cutNot takes `not` off the first piece, unless it belongs to a declared name.
func cutNot(piece string, declared func(string) bool) (string, bool) {
	rest, ok := cutPrefixFold(piece, "not ")
	if !ok || declared(piece) || declared(strings.TrimSpace(orWord.Split(piece, 2)[0])) {
		return piece, false
	}
	return strings.TrimSpace(rest), true
}

func cutPrefixFold(s, prefix string) (string, bool) {
	if len(s) < len(prefix) || !strings.EqualFold(s[:len(prefix)], prefix) {
		return s, false
	}
	return s[len(prefix):], true
}

func malformed(format string, args ...any) condition {
	return condition{code: finding.ConditionMalformed, why: fmt.Sprintf(format, args...)}
}

// values reads the pieces of a list of values.
func (b *binder) values(t *model.Trait, text string, pieces []string) (space.Set, condition) {
	var set space.Set
	for _, piece := range pieces {
		part, bad := b.piece(t, piece)
		if bad.why != "" || bad.name != "" {
			return nil, bad
		}
		set = set.Or(part)
	}
	if set.Len() == 0 {
		return nil, malformed("%q names no value of %s", text, t.Name)
	}
	return set, condition{}
}

// piece reads one part of a list: a value, n/a, or a stretch of an ordered trait.
func (b *binder) piece(t *model.Trait, piece string) (space.Set, condition) {
	if i, ok := b.value(t, piece); ok {
		return space.SetOf(i), condition{}
	}
	folded := word.Fold(piece)
	switch {
	case folded == "n/a":
		return space.SetOf(t.Absent()), condition{}
	case folded == "any":
		return nil, malformed("any stands alone in its cell; in a list it would make the rest mean nothing")
	case strings.HasPrefix(folded, "not "):
		return nil, malformed("\"not\" stands once, before the whole list, and not before %q alone", strings.TrimSpace(piece[3:]))
	case strings.HasPrefix(folded, "from "), strings.HasPrefix(folded, "to "):
		return b.stretch(t, piece)
	}
	return nil, b.noValue(t, piece)
}

// platformWord says why a word cannot stand in a list of platforms.
func platformWord(name string) string {
	switch folded := word.Fold(name); {
	case folded == "n/a":
		return "every vehicle has a platform, so Platform takes no n/a; write any where every platform is meant"
	case folded == "any" || folded == "all":
		return "any stands alone in its cell"
	case strings.HasPrefix(folded, "not "):
		return fmt.Sprintf("\"not\" stands once, before the whole list, and not before %q alone", strings.TrimSpace(name[len("not "):]))
	}
	return ""
}

// noValue says why a piece is no value of the trait.
func (b *binder) noValue(t *model.Trait, piece string) condition {
	if t.Kind == model.Size {
		if _, err := measure.ParseSize(piece, b.sizes()); errors.Is(err, measure.ErrUnitless) {
			return condition{code: finding.SizeUnitless, why: err.Error()}
		}
	}
	return condition{code: finding.ReferenceUnknown, name: piece}
}

// stretch reads `from A`, `to B` and `from A to B`.
func (b *binder) stretch(t *model.Trait, piece string) (space.Set, condition) {
	if t.Kind == model.Choice {
		return nil, malformed("%q asks for an order, and the values of %s have none: list the values, or write ordered under Kind in Traits", piece, t.Name)
	}
	word, rest, _ := strings.Cut(piece, " ")
	from, to := -1, -1
	if strings.EqualFold(word, "from") {
		low, high, both := cutFold(rest, " to ")
		var ok bool
		if from, ok = b.value(t, low); !ok {
			return nil, b.noValue(t, low)
		}
		if both {
			rest = high
		} else {
			rest = ""
		}
	}
	if rest != "" {
		var ok bool
		if to, ok = b.value(t, rest); !ok {
			return nil, b.noValue(t, rest)
		}
	}
	var set space.Set
	for i := range t.Values {
		if (from < 0 || t.Before(from, i)) && (to < 0 || t.Before(i, to)) {
			set = set.Or(space.SetOf(i))
		}
	}
	if set.Len() == 0 {
		return nil, malformed("%q runs backwards: no value of %s lies in it", piece, t.Name)
	}
	return set, condition{}
}

func cutFold(s, sep string) (before, after string, found bool) {
	i := strings.Index(strings.ToLower(s), sep)
	if i < 0 || i+len(sep) > len(s) {
		return s, "", false
	}
	return s[:i], s[i+len(sep):], true
}

// value finds a declared value by name or, for a size trait, by magnitude.
func (b *binder) value(t *model.Trait, text string) (int, bool) {
	if i, ok := b.valueNames[t.Index].find(text); ok {
		return i, true
	}
	if t.Kind != model.Size || strings.TrimSpace(text) == "" {
		return 0, false
	}
	size, err := measure.ParseSize(strings.TrimSpace(text), b.sizes())
	if err != nil {
		return 0, false
	}
	i := slices.IndexFunc(t.Values, func(v *model.Value) bool {
		return v.Size.Num != nil && v.Size.Equal(size)
	})
	return i, i >= 0
}

// when reads the condition columns of a row. Names that nothing declares set it
// aside.
func (b *binder) when(r row, traits []*model.Trait) model.When {
	var w model.When
	if f, ok := r.field("Platform"); ok {
		b.whenPlatform(r, f, &w)
	}
	if f, ok := r.field("Years"); ok && b.suspected(r.t, &r.t.Columns[f.Column]) == nil {
		b.whenYears(r, f, &w)
	}
	n := 0
	for i := range r.r.Fields {
		if traits[r.r.Fields[i].Column] != nil {
			n++
		}
	}
	if n > 0 {
		w.Traits = b.pools.sets.take(n)[:0]
	}
	for i := range r.r.Fields {
		f := &r.r.Fields[i]
		if t := traits[f.Column]; t != nil {
			b.whenTrait(r, *f, t, &w)
		} else if cause := b.suspected(r.t, &r.t.Columns[f.Column]); cause != nil {
			w.SetAside = true
			b.toBlame(cause)
		}
	}
	b.underTwice(r, &w)
	slices.SortFunc(w.Traits, func(x, y model.TraitSet) int { return x.Trait.Index - y.Trait.Index })
	return w
}

func (b *binder) whenYears(r row, f table.Field, w *model.When) {
	if f.Broken {
		w.SetAside = true
		return
	}
	c, ok := b.years.find(f.Text)
	if !ok {
		c.years, c.why = parseYears(f.Text)
		b.years.keep(f.Text, c)
	}
	if c.why != "" {
		w.SetAside = true
		b.fail(finding.ConditionMalformed, r.place(f), "%s", c.why)
	}
	w.Years = c.years
}

// yearsCell is what a Years cell says.
type yearsCell struct {
	years *model.Years
	why   string // not "": it cannot be read
}

func (b *binder) whenTrait(r row, f table.Field, t *model.Trait, w *model.When) {
	if f.Broken {
		w.SetAside = true
		return
	}
	c := b.traitCell(r, f, t)
	switch {
	case c.name != "":
		w.SetAside = true
		b.unknown(c.code, schema.Traits, "value of "+t.Name, c.name, b.valueNames[t.Index].list, r.place(f))
	case c.why != "":
		w.SetAside = true
		b.fail(c.code, r.place(f), "%s", c.why)
	case !c.any:
		w.Traits = append(w.Traits, model.TraitSet{Trait: t, Values: c.set, Line: c.line})
		if r.t.Kind != schema.Vehicles {
			b.beyond(r.place(f), t, c, w, finding.Warning)
		}
	}
}

// traitCell reads a cell under a trait; a unit in the header is that of bare numbers.
func (b *binder) traitCell(r row, f table.Field, t *model.Trait) condition {
	if f.Broken {
		return condition{}
	}
	if unit := r.t.Columns[f.Column].Unit; unit != "" && t.Kind == model.Size {
		return b.condition(t, b.withUnit(t, f.Text, unit))
	}
	return b.known(t).of(r.t, &f, func() (condition, bool) { return b.condition(t, f.Text), true })
}

// withUnit writes the header's unit behind a cell that is a bare number.
func (b *binder) withUnit(t *model.Trait, text, unit string) string {
	if _, err := measure.ParseSize(strings.TrimSpace(text), b.sizes()); errors.Is(err, measure.ErrUnitless) {
		return strings.TrimSpace(text) + " " + unit
	}
	return text
}

// whenPlatform reads a Platform cell: names, any, or not and names.
func (b *binder) whenPlatform(r row, f table.Field, w *model.When) {
	if f.Broken {
		w.SetAside = true
		return
	}
	text := strings.TrimSpace(f.Text)
	if ps, ok := b.platformCells.find(text); ok {
		w.Platforms = ps
		return
	}
	if p, ok := b.platformNames.find(text); ok {
		w.Platforms = []*model.Platform{p}
		b.platformCells.keep(text, w.Platforms)
		return
	}
	if word.Fold(text) == "any" {
		return
	}
	declared := func(name string) bool { _, ok := b.platformNames.find(name); return ok }
	pieces, not := list(text, declared)
	if a, ok := b.platformAdvice(text, pieces); ok {
		w.SetAside = true
		b.fail(finding.ConditionMalformed, r.place(f), "%s", a.Of(text))
		return
	}
	if len(pieces) == 0 || word.Fold(text) == "not" {
		w.SetAside = true
		b.fail(finding.ConditionMalformed, r.place(f), "%q names no platform; write one or more, not and those that are left out, or any", text)
		return
	}
	named := make([]bool, len(b.cat.Platforms))
	for _, name := range pieces {
		if why := platformWord(name); why != "" && !declared(name) {
			w.SetAside = true
			b.fail(finding.ConditionMalformed, r.place(f), "%s", why)
			continue
		}
		p, ok := b.platformNames.find(name)
		if !ok {
			w.SetAside = true
			b.unknown(finding.ReferenceUnknown, schema.Platforms, "platform", name, b.platformNames.list, r.place(f))
			continue
		}
		named[p.Index] = true
	}
	w.Platforms = []*model.Platform{}
	for i, p := range b.cat.Platforms {
		if named[i] != not {
			w.Platforms = append(w.Platforms, p)
		}
	}
}
