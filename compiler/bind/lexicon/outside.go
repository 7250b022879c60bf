package lexicon

import (
	"fmt"
	"slices"

	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Outside knows the names of a catalogue as people write them who do not keep its sheets: also by
// what platforms, traits and values are called besides, and with no regard to spaces and hyphens
// where one name alone can be meant. What values are called is what they are called on a platform;
// nil stands for any.
func Outside(cat *model.Catalogue, on *model.Platform) *Lexicon {
	x := Of(cat)
	x.Platforms.loosen()
	x.Traits.loosen()
	for _, p := range cat.Platforms {
		x.Platforms.call(p.Name, model.Names(p.Called, nil))
	}
	for _, t := range cat.Traits {
		x.Traits.call(t.Name, model.Names(t.Called, nil))
	}
	return x.OutsideOn(cat, on)
}

// OutsideOn is what Outside gives for a platform, made from what it gives for another: all but the names of values is
// shared, since a catalogue may have thousands of platforms.
func (x *Lexicon) OutsideOn(cat *model.Catalogue, on *model.Platform) *Lexicon {
	out := *x
	out.values, out.kept = nil, kept{}
	for _, t := range cat.Traits {
		values := out.Values(t)
		for i, v := range t.Values {
			values.Add(v.Name, i)
		}
		values.loosen()
		for _, v := range t.Values {
			values.call(v.Name, model.Names(v.Called, on))
		}
	}
	return &out
}

// outside is by what else declared names are found.
type outside struct {
	called   lists    // declared names by what they are also called, folded
	squeezed lists    // by all their names, squeezed
	list     []string // what they are also called
}

// loosen lets names be found as people outside write them.
func (n *Names[T]) loosen() {
	n.outside = &outside{lists{}, lists{}, nil}
	for _, name := range n.list {
		n.outside.squeezed.add(word.Squeeze(name), name)
	}
}

// call says what else a declared name is called.
func (n *Names[T]) call(name string, also []string) {
	for _, a := range also {
		n.outside.called.add(word.Fold(a), name)
		n.outside.squeezed.add(word.Squeeze(a), name)
		n.outside.list = append(n.outside.list, a)
	}
}

// may gives the declared names that may be meant by one that is not declared itself.
func (o *outside) may(name string) []string {
	if all := o.called[word.Fold(name)]; len(all) > 0 {
		return all
	}
	if short := word.Squeeze(name); short != "" {
		return o.squeezed[short]
	}
	return nil
}

// Ambiguous says that several may be meant by a name, "" where it is none of these.
func (n *Names[T]) Ambiguous(name string) string {
	if n.outside == nil || n.declared(name) {
		return ""
	}
	all := n.outside.may(name)
	if len(all) < 2 {
		return ""
	}
	return fmt.Sprintf("%q may be %s; write which", name, word.List(all, "or"))
}

// slipOf names what a slip of the hand in another name of it stands for.
func (n *Names[T]) slipOf(name string) string {
	if n.outside == nil {
		return ""
	}
	near := word.Sole(name, n.outside.list)
	if near == "" {
		return ""
	}
	if all := n.outside.may(near); len(all) == 1 {
		return fmt.Sprintf("; did you mean %s, which is %s?", near, all[0])
	}
	return ""
}

// lists are texts by what they are found under.
type lists map[string][]string

// add lists a text once.
func (l lists) add(under, text string) {
	if !slices.Contains(l[under], text) {
		l[under] = append(l[under], text)
	}
}
