package bind

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/bind/grammar"
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
	declared := b.values(t)
	said := grammar.ReadCondition(text).Take(declared)
	switch {
	case said.Any:
		return condition{any: true}
	case said.Fault != "":
		return malformed("%s", said.Fault)
	}
	set, bad := b.terms(t, text, said.Names(declared))
	if bad.why != "" || bad.name != "" {
		return b.amended(t, text, bad)
	}
	if said.Not {
		set = set.Not(len(t.Values) + 1)
	}
	return condition{set: set, not: said.Not}
}

// values knows the values of a trait by name.
func (b *binder) values(t *model.Trait) func(name string) bool {
	return func(name string) bool { _, ok := b.value(t, name); return ok }
}

// list gives the names that a cell lists, and whether it says which are left out.
func list(text string, declared func(string) bool) (names []string, not bool) {
	said := grammar.ReadList(text).Take(declared)
	return said.Names(declared), said.Not
}

func malformed(format string, args ...any) condition {
	return condition{code: finding.ConditionMalformed, why: fmt.Sprintf(format, args...)}
}

// terms reads the names of a list.
func (b *binder) terms(t *model.Trait, text string, names []string) (space.Set, condition) {
	var set space.Set
	for _, name := range names {
		part, bad := b.term(t, name)
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

// term reads one of the names in a list: a value, n/a, or a stretch of an ordered trait.
func (b *binder) term(t *model.Trait, said string) (space.Set, condition) {
	switch term := grammar.ReadTerm(said).Take(b.values(t)); term.Kind {
	case grammar.Absent:
		return space.SetOf(t.Absent()), condition{}
	case grammar.Any:
		return nil, malformed("any stands alone in its cell; in a list it would make the rest mean nothing")
	case grammar.Not:
		return nil, malformed("\"not\" stands once, before the whole list, and not before %q alone", term.Name)
	case grammar.Stretch:
		return b.stretch(t, said, term)
	}
	i, ok := b.value(t, said)
	if !ok {
		return nil, b.noValue(t, said)
	}
	return space.SetOf(i), condition{}
}

// platformWord says why a word cannot stand in a list of platforms.
func platformWord(name string) string {
	switch term := grammar.ReadTerm(name).Plain(); {
	case term.Kind == grammar.Absent:
		return "every vehicle has a platform, so Platform takes no n/a; write any where every platform is meant"
	case term.Kind == grammar.Any || word.Fold(name) == "all":
		return "any stands alone in its cell"
	case term.Kind == grammar.Not:
		return fmt.Sprintf("\"not\" stands once, before the whole list, and not before %q alone", term.Name)
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
	if kind, ok := kindless(t); ok {
		if _, err := kind.Line().Range(piece); err == nil {
			return malformed("%q is no value of %s, whose one value in Traits, %s, reads like an extent; write %s there under Kind if it is one", piece, t.Name, t.Values[0].Name, kind)
		}
	}
	return condition{code: finding.ReferenceUnknown, name: piece}
}

// kindless tells of a trait whose one value reads like the extent of a kind that it does not have.
func kindless(t *model.Trait) (model.TraitKind, bool) {
	if t.Kind != model.Choice || len(t.Values) != 1 {
		return 0, false
	}
	for _, k := range []model.TraitKind{model.Date, model.Serial} {
		if s, err := k.Line().Extent(t.Values[0].Name); err == nil && (len(s) > 1 || s[0].Len() > 1) {
			return k, true
		}
	}
	return 0, false
}

// stretch gives the values from one to another, in their order.
func (b *binder) stretch(t *model.Trait, said string, ends grammar.Term) (space.Set, condition) {
	if t.Kind == model.Choice {
		return nil, malformed("%q asks for an order, and the values of %s have none: list the values, or write ordered under Kind in Traits", said, t.Name)
	}
	from, to := -1, -1
	for _, end := range []struct {
		name string
		at   *int
	}{{ends.From, &from}, {ends.To, &to}} {
		if end.name == "" {
			continue
		}
		i, ok := b.value(t, end.name)
		if !ok {
			return nil, b.noValue(t, end.name)
		}
		*end.at = i
	}
	var set space.Set
	for i := range t.Values {
		if (from < 0 || t.Before(from, i)) && (to < 0 || t.Before(i, to)) {
			set = set.Or(space.SetOf(i))
		}
	}
	if set.Len() == 0 {
		return nil, malformed("%q runs backwards: no value of %s lies in it", said, t.Name)
	}
	return set, condition{}
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
