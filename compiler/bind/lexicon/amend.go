package lexicon

import (
	"strings"

	"ferrule/compiler/bind/mend"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// amended says what to write in place of a condition that cannot be read, where it shows
// what was meant; otherwise what is wrong with it stands.
func (x *Lexicon) amended(t *model.Trait, text string, bad Fault) Fault {
	if bad.Flaw == Unitless || bad.Flaw == Undeclared && x.Values(t).Ambiguous(bad.Name) != "" {
		return bad
	}
	if a, ok := x.valueMender(t).Advise(text); ok {
		return malformed("%s", a.Of(strings.TrimSpace(text)))
	}
	if bad.Flaw == Undeclared {
		if other := x.elsewhere(t, bad.Name); other != "" {
			return malformed("%q is a value of %s, not of %s; write it under %s, and a value of %s here", bad.Name, other, t.Name, other, t.Name)
		}
	}
	return bad
}

// valueMender knows what mend has to know of a trait.
func (x *Lexicon) valueMender(t *model.Trait) mend.Values {
	v := mend.Values{
		What: "value of " + t.Name, Ordered: t.Kind != model.Choice, Absent: true,
		Find: func(text string) (int, bool) { return x.value(t, text) },
		Step: func(i int, up bool) (int, bool) { return next(t, i, up) },
		Reads: func(cell string) bool {
			names, _ := list(cell, x.isValue(t))
			_, bad := x.terms(t, cell, names)
			return bad.Flaw == None || word.Fold(cell) == "any"
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
func (x *Lexicon) elsewhere(t *model.Trait, name string) string {
	var found []string
	for _, o := range x.Traits.all {
		if x.Values(o).Has(name) && o != t {
			found = append(found, o.Name)
		}
	}
	if len(found) != 1 {
		return ""
	}
	return found[0]
}
