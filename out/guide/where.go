package guide

import (
	"slices"

	"ferrule/compiler/model"
)

// where says a box of vehicles: years first, then what must be seen.
type where struct {
	Years string // "" for all years
	Terms []term
	So    []term // what follows for vehicles that exist
}

// All tells whether nothing needs to be known.
func (w where) All() bool { return w.Years == "" && len(w.Terms) == 0 }

// term is what must hold of one trait, of which it has what the catalogue declares.
type term struct {
	Trait   *model.Trait
	But     bool     // any value but the named ones
	Names   []string // none: Absent alone, or every value
	Absent  bool     // 'does not apply' will do
	Said    bool     // Instead stands beside it
	Instead *term    // what vehicles have, and no others, to which it does not apply; nil: unknown
}

// Every tells whether each value will do, and 'does not apply' will not.
func (t term) Every() bool { return len(t.Names) == 0 && !t.Absent }

// Lacks tells whether all that is said is what vehicles have in place of the trait.
func (t term) Lacks() bool { return len(t.Names) == 0 && t.Absent && t.Instead != nil }

// occurring says which values of which traits of the catalogue a platform has.
type occurring struct {
	*edition // in whose words they are said
	sets     map[*model.Trait]model.TraitSet
}

func (e *edition) occurringOf(has []model.TraitSet) occurring {
	o := occurring{e, make(map[*model.Trait]model.TraitSet, len(has))}
	for _, t := range has {
		o.sets[t.Trait.Declared()] = t
	}
	return o
}

// where says a box in the words of the platform. A box may reach over values that the
// platform does not have; those are left out, and so is a trait that then says
// nothing.
func (o occurring) where(b model.Box) where {
	var w where
	if b.Years != nil {
		w.Years = o.spans(b.Years)
	}
	for _, t := range b.Traits {
		if term, says := o.term(t); says {
			w.Terms = append(w.Terms, term)
		}
	}
	for _, t := range b.So {
		if term, says := o.term(t); says {
			w.So = append(w.So, term)
		}
	}
	return w
}

// term gives what the set asks of a trait; false where every vehicle of the platform
// meets it.
func (o occurring) term(t model.TraitSet) (term, bool) {
	has := o.sets[t.Trait.Declared()]
	in, out := o.split(t, has)
	absent, hasAbsent := t.Values.Has(t.Trait.Absent()), has.Trait != nil && has.Values.Has(has.Trait.Absent())
	w := term{Trait: t.Trait.Declared(), Names: in, Absent: hasAbsent && absent}
	never := hasAbsent && !absent
	switch {
	case len(out) == 0 && !never:
		return term{}, false
	case len(out) == 0 && !w.Absent:
		w.Names = nil
	case len(in) > 2 && len(in) > len(out) && len(out) > 0:
		w.But, w.Names = true, out
	}
	return w, true
}

// split names those of the values that a platform has that are in a set, and the others.
// Stretches that follow on each other are named as one.
func (o occurring) split(t, has model.TraitSet) (in, out []string) {
	if k := t.Trait.Kind; k.OnLine() {
		ranges, _ := t.Ranges()
		all, _ := has.Ranges()
		for _, r := range all.And(ranges) {
			in = append(in, o.onLine(k.Line(), r))
		}
		for _, r := range all.Without(ranges) {
			out = append(out, o.onLine(k.Line(), r))
		}
		return in, out
	}
	for i, v := range t.Trait.Values {
		switch {
		case !has.Values.Has(i):
		case t.Values.Has(i):
			in = append(in, v.Name)
		default:
			out = append(out, v.Name)
		}
	}
	return in, out
}

// wheres says several boxes; none where there is nothing to know, which is all
// vehicles.
func (o occurring) wheres(boxes []model.Box) []where {
	var out []where
	for _, b := range boxes {
		w := o.where(b)
		if w.All() {
			return nil
		}
		out = append(out, w)
	}
	return out
}

// yearWords says the years of a platform, holes and all: `2004 to 2009, 2011`.
func (e *edition) yearWords(years []int) string {
	var spans []model.Span
	for _, y := range years {
		if n := len(spans); n > 0 && spans[n-1].To == y-1 {
			spans[n-1].To = y
		} else {
			spans = append(spans, model.Span{From: y, To: y})
		}
	}
	return e.spans(spans)
}

// traitsOf lists the traits that any of the wheres asks for, as declared.
func traitsOf(ws []where) []*model.Trait {
	var out []*model.Trait
	for _, w := range ws {
		for _, t := range w.Terms {
			if !slices.Contains(out, t.Trait) {
				out = append(out, t.Trait)
			}
		}
	}
	slices.SortFunc(out, func(a, b *model.Trait) int { return a.Index - b.Index })
	return out
}
