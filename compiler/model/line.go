package model

import (
	"slices"

	"ferrule/compiler/line"
	"ferrule/compiler/space"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Line is a condition on the values of a trait on a line.
type Line struct {
	Not    bool // all but the ranges
	Ranges line.Set
}

// Within gives what of the values that there are meets the condition.
func (l *Line) Within(extent line.Set) line.Set {
	if l.Not {
		return extent.Without(l.Ranges)
	}
	return extent.And(l.Ranges)
}

// Extent says which values of a trait on a line there are: on a platform, or, where that is
// nil, on all of which no other row says it.
type Extent struct {
	Platform *Platform
	Values   line.Set
	At       cell.Place
}

// OnLine tells whether values of the kind stand on a line.
func (k TraitKind) OnLine() bool { return k == Serial || k == Date }

// Line gives what stands on the line of a kind whose values do.
func (k TraitKind) Line() line.Kind {
	if k == Date {
		return line.Date
	}
	return line.Serial
}

// Extent gives the values that a trait on a line has on a platform; none where nothing says so.
func (t *Trait) Extent(p *Platform) line.Set {
	var general line.Set
	for _, e := range t.Extents {
		switch {
		case e.Platform == p:
			return e.Values
		case e.Platform == nil:
			general = e.Values
		}
	}
	return general
}

// Declared gives the trait of the catalogue that a trait of one platform is; itself where it
// is of the catalogue.
func (t *Trait) Declared() *Trait {
	if t.declared != nil {
		return t.declared
	}
	return t
}

// Cut gives a trait on a line as it is on a platform: its values are the longest stretches of
// what there is that none of the conditions tells apart.
func (t *Trait) Cut(p *Platform, by []line.Set) *Trait {
	out := *t
	out.declared = t.Declared()
	out.Values = nil
	for _, r := range t.Extent(p).Cut(by...) {
		out.Values = append(out.Values, &Value{Name: t.Kind.Line().Write(r), Stretch: r})
	}
	return &out
}

// On gives the set as one of the values of a trait of one platform, which is the same or
// another form of its own.
func (t TraitSet) On(local *Trait) space.Set {
	if t.Trait == local || !local.Kind.OnLine() {
		return t.Values
	}
	var in []int
	if t.Line == nil { // the stretches of another platform
		t = t.Whole()
	}
	for i, v := range local.Values {
		meant := t.Line.Ranges.Meets(line.Set{v.Stretch})
		if meant != t.Line.Not {
			in = append(in, i)
		}
	}
	if t.Values.Has(t.Trait.Absent()) {
		in = append(in, local.Absent())
	}
	return space.SetOf(in...)
}

// Whole gives the set in the terms of the catalogue: the stretches of one platform are ranges
// of the line again.
func (t TraitSet) Whole() TraitSet {
	if t.Line != nil || !t.Trait.Kind.OnLine() {
		return t
	}
	ranges, absent := t.Ranges()
	out := TraitSet{Trait: t.Trait.Declared(), Line: &Line{Ranges: ranges}}
	if absent {
		out.Values = space.SetOf(out.Trait.Absent())
	}
	return out
}

// Ranges gives the ranges of a trait on a line that the set holds; absent tells whether it
// holds 'does not apply'. A set that leaves values out has those that it names not.
func (t TraitSet) Ranges() (ranges line.Set, absent bool) {
	absent = t.Values.Has(t.Trait.Absent())
	if t.Line != nil {
		return t.Line.Ranges, absent
	}
	var all []line.Range
	for i, v := range t.Trait.Values {
		if t.Values.Has(i) {
			all = append(all, v.Stretch)
		}
	}
	return line.SetOf(all...), absent
}

// LineConditions gives, for each trait on a line by its index, what a condition says of it.
func (w *When) LineConditions(yield func(*Trait, line.Set)) {
	for _, t := range w.Traits {
		if t.Trait.Kind.OnLine() {
			ranges, _ := t.Ranges()
			yield(t.Trait, ranges)
		}
	}
}

// Closed gives the condition with closed ranges of what platforms have in place of those that are
// open, or left out.
func (w *When) Closed(on []*Platform) When {
	out := *w
	out.Traits = slices.Clone(w.Traits)
	for i, t := range out.Traits {
		if t.Line == nil {
			continue
		}
		var extent line.Set
		for _, p := range on {
			extent = extent.Or(t.Trait.Extent(p))
		}
		out.Traits[i].Line = &Line{Ranges: t.Line.Within(extent)}
	}
	return out
}

// OnLine gives the traits whose values stand on a line.
func (c *Catalogue) OnLine() []*Trait {
	return slices.DeleteFunc(slices.Clone(c.Traits), func(t *Trait) bool { return !t.Kind.OnLine() })
}

// Meets tells whether a value that a platform's vehicles may have is in both of two sets of one
// trait of the catalogue.
func (t TraitSet) Meets(o TraitSet, p *Platform) bool {
	if t.Line == nil || o.Line == nil {
		return t.Values.Meets(o.Values)
	}
	extent := t.Trait.Extent(p)
	return t.Values.Meets(o.Values) || t.Line.Within(extent).Meets(o.Line.Within(extent))
}

// lineString says a condition on a trait on a line: `Chassis number 41200 to 46999`.
func (t TraitSet) lineString(names []string, absent bool) string {
	not := t.Line != nil && t.Line.Not
	whole := t.Line == nil && t.Values.Without(space.SetOf(t.Trait.Absent())).Len() == len(t.Trait.Values)
	switch {
	case not && len(names) == 0, whole && len(names) > 0:
		return "any " + t.Trait.Name + orAbsent(absent)
	case not:
		return "any " + t.Trait.Name + " but " + word.List(names, "and") + orAbsent(absent)
	case len(names) == 0:
		return t.Trait.Name + " does not apply"
	}
	return t.Trait.Name + " " + word.List(names, "or") + orAbsent(absent)
}
