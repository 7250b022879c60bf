package bind

import (
	"slices"
	"strings"

	"ferrule/compiler/bind/mend"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// amended says what to write in place of a condition that cannot be read, where it shows
// what was meant; otherwise what is wrong with it stands.
func (b *binder) amended(t *model.Trait, text string, bad condition) condition {
	if bad.code == finding.SizeUnitless {
		return bad
	}
	a, ok := b.valueMender(t).Advise(text)
	if ok {
		return malformed("%s", a.Of(strings.TrimSpace(text)))
	}
	if bad.name != "" {
		if other := b.elsewhere(t, bad.name); other != "" {
			return malformed("%q is a value of %s, not of %s; write it under %s, and a value of %s here", bad.name, other, t.Name, other, t.Name)
		}
	}
	return bad
}

// valueMender knows what mend has to know of the values of a trait.
func (b *binder) valueMender(t *model.Trait) mend.Values {
	v := mend.Values{
		What: "value of " + t.Name, Ordered: t.Kind != model.Choice, Absent: true,
		Find: func(text string) (int, bool) { return b.value(t, text) },
		Step: func(i int, up bool) (int, bool) { return next(t, i, up) },
		Reads: func(cell string) bool {
			names, _ := list(cell, b.values(t))
			_, bad := b.terms(t, cell, names)
			return bad.why == "" && bad.name == "" || word.Fold(cell) == "any"
		},
	}
	for _, value := range t.Values {
		v.Names = append(v.Names, value.Name)
	}
	return v
}

// next gives the value that follows another in the order of its trait.
func next(t *model.Trait, i int, up bool) (int, bool) {
	best := -1
	for j := range t.Values {
		from, to := i, j
		if !up {
			from, to = j, i
		}
		if j == i || !t.Before(from, to) || t.Before(to, from) {
			continue
		}
		if best < 0 || up && t.Before(j, best) || !up && t.Before(best, j) {
			best = j
		}
	}
	return best, best >= 0
}

// elsewhere names the one other trait that has a value of the name, "" for none or several.
func (b *binder) elsewhere(t *model.Trait, name string) string {
	var found []string
	for _, o := range b.cat.Traits {
		if _, ok := b.valueNames[o.Index].find(name); ok && o != t {
			found = append(found, o.Name)
		}
	}
	if len(found) != 1 {
		return ""
	}
	return found[0]
}

// platformAdvice says what to write in place of a Platform cell that does not read.
func (b *binder) platformAdvice(text string, pieces []string) (mend.Advice, bool) {
	find := func(name string) (int, bool) {
		p, ok := b.platformNames.find(name)
		if !ok {
			return 0, false
		}
		return p.Index, true
	}
	declared := func(name string) bool { _, ok := find(name); return ok }
	sound := func(pieces []string) bool {
		return len(pieces) > 0 && !slices.ContainsFunc(pieces, func(name string) bool { return !declared(name) })
	}
	if b.nameless(schema.Platforms) || sound(pieces) {
		return mend.Advice{}, false
	}
	said := once(&b.advised, text, func() advised { return b.advisePlatform(text, find, declared, sound) })
	return said.Advice, said.ok
}

// advised is advice on a cell, where there is any.
type advised struct {
	mend.Advice
	ok bool
}

func (b *binder) advisePlatform(text string, find func(string) (int, bool), declared func(string) bool, sound func([]string) bool) advised {
	v := mend.Values{What: "platform", Find: find, Reads: func(cell string) bool {
		pieces, _ := list(cell, declared)
		return sound(pieces) || word.Fold(cell) == "any"
	}}
	for _, p := range b.cat.Platforms {
		v.Names = append(v.Names, p.Name)
	}
	a, ok := v.Advise(text)
	return advised{a, ok}
}
