package lexicon

import (
	"fmt"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/bind/memo"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Condition is what a cell under a trait says.
type Condition struct {
	Fault Fault       // why it cannot be read
	Set   space.Set   // of the trait's values and Absent
	Any   bool        // blank, or any
	Not   bool        // the cell excludes values
	Line  *model.Line // of a trait on a line, whose set holds its Absent or nothing
	said  []linePiece // the pieces that Line was read from
}

// Reads tells whether the cell can be read.
func (c *Condition) Reads() bool { return c.Fault.Flaw == None }

// Stated gives what a cell that reads says where `any` and `not` reach over declared values
// only.
func (c *Condition) Stated(t *model.Trait) model.TraitSet {
	switch out := (model.TraitSet{Trait: t, Values: c.Set, Line: c.Line}); {
	case c.Any:
		return EveryValue(t)
	case c.Not:
		out.Values = c.Set.And(space.All(len(t.Values)))
		return out
	default:
		return out
	}
}

// EveryValue is what any says of a trait where only values count.
func EveryValue(t *model.Trait) model.TraitSet {
	if t.Kind.OnLine() {
		return model.TraitSet{Trait: t, Values: space.Set{}, Line: &model.Line{Not: true}}
	}
	return model.TraitSet{Trait: t, Values: space.All(len(t.Values))}
}

// Condition reads a cell under a trait, as it reads outside Vehicles; each text once,
// since columns repeat.
func (x *Lexicon) Condition(t *model.Trait, text string) Condition {
	for len(x.kept.conditions) <= t.Index {
		x.kept.conditions = append(x.kept.conditions, &memo.Texts[Condition]{})
	}
	return x.kept.conditions[t.Index].Once(text, func() Condition { return x.readCondition(t, text) })
}

// MayBe tells whether a text reads under a trait and names something that there is of it. It
// keeps nothing: whole columns are asked about under every trait.
func (x *Lexicon) MayBe(t *model.Trait, text string) bool {
	c := x.readCondition(t, text)
	return c.Reads() && c.within(t)
}

func (x *Lexicon) readCondition(t *model.Trait, text string) Condition {
	if t.Kind.OnLine() {
		return readLine(t, text)
	}
	declared := x.isValue(t)
	said := grammar.ReadCondition(text).Take(declared)
	switch {
	case said.Any:
		return Condition{Any: true}
	case said.Fault != "":
		return Condition{Fault: malformed("%s", said.Fault)}
	}
	set, bad := x.terms(t, text, said.Names(declared))
	if bad.Flaw != None {
		return Condition{Fault: x.amended(t, text, bad)}
	}
	if said.Not {
		set = set.Not(len(t.Values) + 1)
	}
	return Condition{Set: set, Not: said.Not}
}

// isValue knows the values of a trait by name.
func (x *Lexicon) isValue(t *model.Trait) func(name string) bool {
	return func(name string) bool { _, ok := x.value(t, name); return ok }
}

func malformed(format string, args ...any) Fault {
	return Fault{Flaw: Malformed, Says: fmt.Sprintf(format, args...)}
}
