package offer

import (
	"slices"
	"strings"
	"unicode"

	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Asked is a number that somebody asked about, with all that it stands for. Nothing of it is
// chosen: two makers may use one number for different things.
type Asked struct {
	Number     string
	Parts      []*model.Part      // that have it as their own, as declared
	References []*model.Reference // that say it is another number of a declared part, in their order
	Loosely    bool               // they are written with other signs between letters and digits
	Nearest    string             // of a number that stands for nothing: one that is much like it; "" for none
}

// None tells whether the number stands for nothing.
func (c *Asked) None() bool { return len(c.Parts)+len(c.References) == 0 }

// Numbers knows every number that a catalogue has for its parts.
type Numbers struct {
	keyed []map[string]*Asked // by what the keys make of a number
	all   []string
}

// numberKeys says when two numbers are taken for the same: as they are, in any case, or else
// by their letters and digits alone.
func numberKeys() []func(string) string { return []func(string) string{word.Fold, bare} }

// NewNumbers goes through a catalogue once.
func NewNumbers(cat *model.Catalogue) *Numbers {
	n := &Numbers{}
	for loosely, key := range numberKeys() {
		of := map[string]*Asked{}
		at := func(number string) *Asked {
			k := key(number)
			if of[k] == nil {
				of[k] = &Asked{Loosely: loosely > 0}
			}
			return of[k]
		}
		known := func(number string) {
			if loosely == 0 {
				n.all = append(n.all, number)
			}
		}
		for _, p := range cat.Parts {
			if p.Known {
				c := at(p.Number)
				known(p.Number)
				c.Parts = append(c.Parts, p)
			}
		}
		for _, r := range cat.References {
			if r.Number != "" && r.Part != nil && r.Part.Known {
				c := at(r.Number)
				known(r.Number)
				c.References = append(c.References, r)
			}
		}
		delete(of, "") // what is made of signs alone is no number
		n.keyed = append(n.keyed, of)
	}
	return n
}

// Find says what a number stands for: what is written as it is, and only where nothing is,
// what has the same letters and digits.
func (n *Numbers) Find(number string) Asked {
	for i, key := range numberKeys() {
		if found := n.keyed[i][key(number)]; found != nil {
			out := *found
			out.Number = number
			return out
		}
	}
	return Asked{Number: number, Nearest: word.Nearest(number, n.all)}
}

// All gives the parts that the number stands for, each once.
func (c *Asked) All() []*model.Part {
	out := slices.Clone(c.Parts)
	for _, r := range c.References {
		if !slices.Contains(out, r.Part) {
			out = append(out, r.Part)
		}
	}
	return out
}

// bare is a number as it is read from a plate or a box: its letters and digits.
func bare(number string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsLetter(r) && !unicode.IsNumber(r) {
			return -1
		}
		return r
	}, word.Fold(number))
}
