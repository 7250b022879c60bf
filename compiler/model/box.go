package model

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/space"
	"ferrule/schema/word"
)

// Box is a product of years and trait values of one platform, as findings and guides
// state it.
type Box struct {
	Years  []Span     // ascending; nil means all years of the platform
	Traits []TraitSet // in declared order; a trait not named is any
	// So holds, in declared order, what follows for traits not named: the values that
	// occur in vehicles of the box, where the platform has others as well. It adds nothing
	// to what the box says of vehicles that exist, and findings leave it out.
	So []TraitSet
}

// Tight gives the box with what follows from it named too.
func (b Box) Tight() Box {
	if len(b.So) == 0 {
		return b
	}
	out := Box{Years: b.Years, Traits: slices.Concat(b.Traits, b.So)}
	slices.SortFunc(out.Traits, func(x, y TraitSet) int { return x.Trait.Index - y.Trait.Index })
	return out
}

// When gives the box as a condition on vehicles of a platform.
func (b Box) When(p *Platform) *When {
	w := &When{Platforms: []*Platform{p}, Traits: b.Traits}
	if b.Years != nil {
		w.Years = &Years{Spans: b.Years}
	}
	return w
}

// Restricts tells whether the box leaves out anything.
func (b Box) Restricts() bool { return b.Years != nil || len(b.Traits) > 0 }

// Example is one configuration: a value for every trait, or Absent.
type Example struct {
	Year   int
	Traits []TraitValue // in declared order; traits that the platform never has are left out
}

// TraitValue is one value of a trait.
type TraitValue struct {
	Trait *Trait
	Value int // index into Trait.Values, or Trait.Absent()
}

// Name gives the value as declared, of a stretch its first; "" where the trait does not apply.
func (v TraitValue) Name() string {
	switch {
	case v.Value == v.Trait.Absent():
		return ""
	case v.Trait.Kind.OnLine():
		return v.Trait.Kind.Line().Point(v.Trait.Values[v.Value].Stretch.First())
	}
	return v.Trait.Values[v.Value].Name
}

// Is gives the condition that the trait is one of some values, by index; Absent is one, too.
func (t *Trait) Is(values ...int) TraitSet { return TraitSet{Trait: t, Values: space.SetOf(values...)} }

// Names gives the values of the set as declared, stretches that follow on each other as one;
// absent tells whether it holds 'does not apply'.
func (t TraitSet) Names() (names []string, absent bool) {
	if k := t.Trait.Kind; k.OnLine() {
		ranges, absent := t.Ranges()
		write := k.Line().Write
		if t.Line != nil {
			write = k.Line().Condition
		}
		for _, r := range ranges {
			names = append(names, write(r))
		}
		return names, absent
	}
	for i, v := range t.Trait.Values {
		if t.Values.Has(i) {
			names = append(names, v.Name)
		}
	}
	return names, t.Values.Has(t.Trait.Absent())
}

// String says the box as a person would: years first, then what must be seen.
func (b Box) String() string {
	var parts []string
	if b.Years != nil {
		parts = append(parts, SpanWords(b.Years))
	}
	for _, t := range b.Traits {
		parts = append(parts, t.String())
	}
	if len(parts) == 0 {
		return "all"
	}
	return strings.Join(parts, ", ")
}

// SpanWords says a list of year ranges: `2004, 2007 to 2012`.
func SpanWords(spans []Span) string {
	words := make([]string, len(spans))
	for i, s := range spans {
		if words[i] = fmt.Sprint(s.From); s.To > s.From {
			words[i] = fmt.Sprintf("%d to %d", s.From, s.To)
		}
	}
	return strings.Join(words, ", ")
}

// String says the condition: `Front suspension Air beam or Twin arm`, `any Levelling
// but Electronic`, `no Lift axle`.
func (t TraitSet) String() string {
	names, absent := t.Names()
	n := len(t.Trait.Values)
	if t.Trait.Kind.OnLine() {
		return t.lineString(names, absent)
	}
	switch {
	case len(names) == 0:
		return t.Trait.Name + " does not apply"
	case len(names) == n:
		return "any " + t.Trait.Name + orAbsent(absent)
	case len(names) > n/2 && len(names) > 2:
		var but []string
		for i, v := range t.Trait.Values {
			if !t.Values.Has(i) {
				but = append(but, v.Name)
			}
		}
		return "any " + t.Trait.Name + " but " + word.List(but, "and") + orAbsent(absent)
	}
	return t.Trait.Name + " " + word.List(names, "or") + orAbsent(absent)
}

func orAbsent(absent bool) string {
	if absent {
		return ", or does not apply"
	}
	return ""
}

// String says one configuration: `2009, Front suspension Air beam`.
func (e *Example) String() string {
	words := []string{fmt.Sprint(e.Year)}
	for _, t := range e.Traits {
		if t.Value != t.Trait.Absent() {
			words = append(words, t.Trait.Name+" "+t.Name())
		}
	}
	return strings.Join(words, ", ")
}

// Spans gives the closed ranges of consecutive platform years that the set of year
// indexes holds. A range is broken only by a year of the platform that is not in the
// set: holes of the platform's years do not count.
func (p *Platform) Spans(set space.Set) []Span {
	var out []Span
	open := false
	for i, y := range p.Years {
		if !set.Has(i) {
			open = false
			continue
		}
		if open {
			out[len(out)-1].To = y
		} else {
			out, open = append(out, Span{y, y}), true
		}
	}
	return slices.Clip(out)
}

// Made gives the platform's model years as ranges.
func (p *Platform) Made() []Span { return p.Runs(space.All(len(p.Years))) }

// Runs gives the closed ranges of consecutive years that the set of year indexes holds.
// They hold no other year, unlike those of Spans.
func (p *Platform) Runs(set space.Set) []Span {
	var out []Span
	for i := range set.Values() {
		y := p.Years[i]
		if n := len(out); n > 0 && out[n-1].To == y-1 {
			out[n-1].To = y
		} else {
			out = append(out, Span{y, y})
		}
	}
	return out
}
