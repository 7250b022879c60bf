package lexicon

import (
	"errors"
	"slices"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// terms reads the names of a list.
func (x *Lexicon) terms(t *model.Trait, text string, names []string) (space.Set, Fault) {
	var set space.Set
	for _, name := range names {
		part, bad := x.term(t, name)
		if bad.Flaw != None {
			return nil, bad
		}
		set = set.Or(part)
	}
	if set.Len() == 0 {
		return nil, malformed("%q names no value of %s", text, t.Name)
	}
	return set, Fault{}
}

// term reads one of the names in a list: a value, n/a, or a stretch of an ordered trait.
func (x *Lexicon) term(t *model.Trait, said string) (space.Set, Fault) {
	switch term := grammar.ReadTerm(said).Take(x.isValue(t)); term.Kind {
	case grammar.Absent:
		return space.SetOf(t.Absent()), Fault{}
	case grammar.Any:
		return nil, malformed("any stands alone in its cell; in a list it would make the rest mean nothing")
	case grammar.Not:
		return nil, malformed("\"not\" stands once, before the whole list, and not before %q alone", term.Name)
	case grammar.Stretch:
		return x.stretch(t, said, term)
	}
	i, ok := x.value(t, said)
	if !ok {
		return nil, x.noValue(t, said)
	}
	return space.SetOf(i), Fault{}
}

// noValue says why a piece is no value of the trait.
func (x *Lexicon) noValue(t *model.Trait, piece string) Fault {
	if t.Kind == model.Size {
		if _, err := measure.ParseSize(piece, x.Sizes); errors.Is(err, measure.ErrUnitless) {
			return Fault{Flaw: Unitless, Says: err.Error()}
		}
	}
	if kind, ok := kindless(t); ok {
		if _, err := kind.Line().Range(piece); err == nil {
			return malformed("%q is no value of %s, whose one value in Traits, %s, reads like an extent; write %s there under Kind if it is one", piece, t.Name, t.Values[0].Name, kind)
		}
	}
	return Fault{Flaw: Undeclared, Name: piece}
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
func (x *Lexicon) stretch(t *model.Trait, said string, ends grammar.Term) (space.Set, Fault) {
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
		i, ok := x.value(t, end.name)
		if !ok {
			return nil, x.noValue(t, end.name)
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
	return set, Fault{}
}

// value finds a declared value by name or, for a size trait and in words from outside, by magnitude.
func (x *Lexicon) value(t *model.Trait, text string) (int, bool) {
	if i, ok := x.Values(t).Find(text); ok {
		return i, true
	}
	if t.Kind != model.Size || strings.TrimSpace(text) == "" {
		return x.magnitude(t, text)
	}
	size, err := measure.ParseSize(strings.TrimSpace(text), x.Sizes)
	if err != nil {
		return 0, false
	}
	i := slices.IndexFunc(t.Values, func(v *model.Value) bool {
		return v.Size.Num != nil && v.Size.Equal(size)
	})
	return i, i >= 0
}
