package guide

import (
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Stretches of a platform are cut by all rows about it, for the staff's eyes as well. A page
// has as one value what follows on each other and what nothing on it tells apart.

// merged numbers the values of a trait on a line as the page does; -1 where one does not occur.
func (f *finder) merged(u model.TraitSet) []int {
	sets := f.setsOf(u.Trait.Index + 1)
	out := make([]int, u.Trait.Absent()+1)
	next := 0
	for v := range out {
		switch {
		case !u.Values.Has(v):
			out[v] = -1
		case v > 0 && u.Values.Has(v-1) && follows(u.Trait, v) && !tellsApart(sets, v-1, v):
			out[v] = out[v-1]
		default:
			out[v], next = next, next+1
		}
	}
	return out
}

func tellsApart(sets []decide.Values, v, w int) bool {
	return slices.ContainsFunc(sets, func(s decide.Values) bool { return s.Has(v) != s.Has(w) })
}

// follows tells whether a value is a stretch that goes on where the one before it ends.
func follows(t *model.Trait, v int) bool {
	if !t.Kind.OnLine() || v == 0 || v == t.Absent() {
		return false
	}
	before, at := t.Values[v-1].Stretch, t.Values[v].Stretch
	return before.Letters == at.Letters && before.To+1 == at.From
}

// setsOf lists the sets of a trait's values of which the page speaks: in what exists, cases,
// rules, complaints, inspections and answers to questions.
func (f *finder) setsOf(trait int) []decide.Values {
	var out []decide.Values
	add := func(vehicles decide.Vehicles) {
		for _, b := range vehicles.Boxes() {
			out = append(out, b.Possible(trait))
		}
	}
	add(f.exist)
	for _, r := range f.guide.Rules {
		add(f.guide.Of(r.Where...))
	}
	for _, b := range f.besides() {
		add(f.guide.Of(b))
	}
	for _, a := range f.guide.Answers {
		for i := range a.Cases {
			add(f.guide.Of(a.Cases[i].Where))
		}
		out = append(out, answersTo(a.Questions.Tree, trait)...)
	}
	return out
}

// answersTo lists the answers to a question wherever a tree asks it.
func answersTo(t *decide.Tree, trait int) []decide.Values {
	if t == nil {
		return nil
	}
	var out []decide.Values
	for _, b := range t.Branches {
		if t.Trait == trait {
			out = append(out, b.Values)
		}
		out = append(out, answersTo(b.Next, trait)...)
	}
	return out
}

// shown gives the values of a trait as the page has them.
func (f *finder) shown(u model.TraitSet) model.TraitSet {
	numbers := f.numbers[u.Trait.Index+1]
	if numbers == nil {
		return u
	}
	t := *u.Trait
	t.Values = nil
	var all []int
	for v, stretch := range u.Trait.Values {
		switch n := numbers[v]; {
		case n == len(t.Values):
			all = append(all, n)
			t.Values = append(t.Values, &model.Value{Stretch: stretch.Stretch})
		case n >= 0:
			t.Values[n].Stretch.To = stretch.Stretch.To
		}
	}
	for _, v := range t.Values {
		v.Name = t.Kind.Line().Write(v.Stretch)
	}
	if u.Values.Has(u.Trait.Absent()) {
		all = append(all, t.Absent())
	}
	return t.Is(all...)
}
