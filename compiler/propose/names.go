package propose

import (
	"maps"
	"slices"
	"strings"

	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Sort is what sort of thing a name is the name of.
type Sort uint8

const (
	AsPlatform Sort = iota // of a platform
	AsTrait                // of a trait, not of its values
	AsPosition             // of a position
	AsPart                 // the number of a part
	AsFamily               // of a family of parts
	sorts
)

// Names are the names of a catalogue that is there already, as far as they tell what a heading or a
// cell means.
type Names struct {
	of     [sorts]map[string]string // by folded name
	values []value
}

// value is a value of a trait.
type value struct{ trait, name string }

// NewNames gives the names of a catalogue; nil has none.
func NewNames(cat *model.Catalogue) *Names {
	n := &Names{}
	for i := range n.of {
		n.of[i] = map[string]string{}
	}
	if cat == nil {
		return n
	}
	for _, p := range cat.Platforms {
		n.add(AsPlatform, p.Name)
	}
	for _, p := range cat.Positions {
		n.add(AsPosition, p.Name)
	}
	for _, p := range cat.Parts {
		n.add(AsPart, p.Number)
		n.add(AsFamily, p.Family)
	}
	for _, t := range cat.Traits {
		n.add(AsTrait, t.Name)
		for _, v := range t.Values {
			n.values = append(n.values, value{t.Name, v.Name})
		}
	}
	return n
}

func (n *Names) add(s Sort, name string) {
	if name != "" {
		n.of[s][word.Fold(name)] = name
	}
}

// Find gives a name as the catalogue spells it.
func (n *Names) Find(s Sort, text string) (string, bool) {
	name, ok := n.of[s][word.Fold(text)]
	return name, ok
}

// Is tells whether the catalogue has a thing of that name.
func (n *Names) Is(s Sort, text string) bool {
	_, ok := n.Find(s, text)
	return ok
}

// any tells whether the catalogue has names of a sort at all.
func (n *Names) any(s Sort) bool { return len(n.of[s]) > 0 }

// traitOf gives the one trait of which a text is a value.
func (n *Names) traitOf(text string) (string, bool) {
	found := ""
	for _, v := range n.values {
		if word.Fold(v.name) == word.Fold(text) {
			if found != "" && found != v.trait {
				return "", false
			}
			found = v.trait
		}
	}
	return found, found != ""
}

// within gives the values that a text names, the longest where one holds another.
func (n *Names) within(text string) []value {
	var out []value
	folded := " " + word.Fold(plainWords(text)) + " "
	for _, v := range n.values {
		name := " " + word.Fold(plainWords(v.name)) + " "
		if !strings.Contains(folded, name) {
			continue
		}
		kept := out[:0]
		longer := false
		for _, o := range out {
			other := " " + word.Fold(plainWords(o.name)) + " "
			longer = longer || strings.Contains(other, name) && len(other) > len(name)
			if !(strings.Contains(name, other) && len(name) > len(other)) {
				kept = append(kept, o)
			}
		}
		if out = kept; !longer {
			out = append(out, v)
		}
	}
	return out
}

// plainWords leaves out signs between words.
func plainWords(text string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(",;.:()[]\"", r) {
			return ' '
		}
		return r
	}, text)
}

// list gives all names of a sort, in order.
func (n *Names) list(s Sort) []string { return slices.Sorted(maps.Values(n.of[s])) }
