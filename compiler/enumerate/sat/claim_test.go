package sat

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
)

// claim is a set of configurations, with what the compiler found about it.
type claim struct {
	kind    string
	subject subject
	terms   []int // the set is where all of these hold
	found   *finding.Finding
	without []int // by box of the finding: outside it
	// local says that whether a configuration is in the set can be read off the terms;
	// otherwise they also speak of another configuration.
	local bool
}

// claim takes the compiler's finding. It must come before the first question.
func (a *audit) claim(w *world, kind string, s subject, terms ...int) *claim {
	s.platform = w.platform.Name
	c := &claim{kind: kind, subject: s, terms: terms, found: a.take(s), local: true}
	if c.found != nil {
		for _, b := range c.found.Region.Open().Where {
			c.without = append(c.without, w.outside(b))
		}
	}
	return c
}

// settle asks whether the set is empty and, where it is not, holds the finding's boxes
// and example against it.
func (a *audit) settle(w *world, claims []*claim) {
	for _, c := range claims {
		a.agree(c.kind, c.found != nil, w.sat(c.terms...), c.subject)
	}
	for _, c := range claims {
		if c.found != nil {
			a.example(w, c)
			a.boxes(w, c)
		}
	}
	// Last, since a solver that has once assumed to be outside a box likes to stay there.
	for _, c := range claims {
		if c.found != nil {
			some := w.sat(slices.Concat(c.terms, c.without)...)
			a.agree(c.kind+", all boxes", c.found.Region.Open().Rest != nil, some, c.subject)
		}
	}
}

// boxes asks whether each box meets the set and reaches over nothing else that exists.
func (a *audit) boxes(w *world, c *claim) {
	for _, b := range c.found.Region.Open().Where {
		in := w.inside(b)
		a.agree(c.kind+", box meets", true, w.sat(slices.Concat(c.terms, in)...), c.subject)
		if !c.local {
			continue
		}
		beyond := slices.ContainsFunc(c.terms, func(l int) bool { return w.sat(append(slices.Clone(in), -l)...) })
		a.agree(c.kind+", box reaches beyond", false, beyond, fmt.Sprint(c.subject, " box ", b))
	}
}

// example asks whether the example is in the set, and whether it is the first one: the
// year first, then the traits as declared, each with its values as declared.
func (a *audit) example(w *world, c *claim) {
	e := c.found.Region.Open().Example
	value := make([]int, len(w.is))
	value[0] = slices.Index(w.platform.Years, e.Year)
	for i, t := range w.cat.Traits {
		value[i+1] = t.Absent() // left out: the platform never has it
	}
	for _, t := range e.Traits {
		value[t.Trait.Index+1] = t.Value
	}
	prefix := slices.Clone(c.terms)
	earlier := false
	for t, v := range value {
		if v > 0 && !earlier {
			lower := slices.Clone(prefix)
			for _, l := range w.is[t][v:] {
				lower = append(lower, -l)
			}
			earlier = w.sat(lower...)
		}
		prefix = append(prefix, w.is[t][v])
	}
	a.agree(c.kind+", example", true, w.sat(prefix...), c.subject)
	a.agree(c.kind+", earlier example", false, earlier, c.subject)
}
