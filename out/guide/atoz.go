package guide

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"ferrule/compiler/model"
	"ferrule/out/search"
)

// aToZPage leads to everything without a script: all numbers by their first character,
// platforms by maker, and what tells vehicles apart.
type aToZPage struct {
	frame
	Letters []letter // with their numbers where there is room for all of them here
	Makers  []maker
	Traits  []askedTrait
}

// letter is the numbers that begin with one character.
type letter struct {
	Name    string // "" for numbers that begin with none
	Anchor  string
	Numbers []number // none: they are on pages of their own
	Pages   []span
}

// span leads to a page of numbers by the first and the last of them.
type span struct{ First, Last, Href string }

// number is a part's number, or another number of a part.
type number struct {
	Number string
	Href   string // of the part's page; "" for a part that nothing declares
	// Of a part's own number.
	Name, Status string
	// Of another number: the part, who uses it, and what kind of number it is.
	Part, Source, Kind string
}

// askedTrait is something to be looked at, with the guides that ask for it.
type askedTrait struct {
	Name, Anchor, Question string
	Values                 []string
	Platforms              []link // none: on very many platforms, or on none
	Count                  int    // how many platforms
}

// numbersPage lists numbers that begin with one character, where there are many.
type numbersPage struct {
	frame
	Letter         string
	Numbers        []number
	Before, Behind string // the pages before and behind; "" at the ends
}

// Limits of the A to Z.
const (
	hereAtMost    = 400 // numbers on the first page itself
	onPageAtMost  = 500 // numbers on each of the others
	linkedAtMost  = 60  // platforms that a trait leads to
	aToZHeading   = "A to Z"
	noCharacterAs = "other"
)

// writeAToZ makes the pages of the A to Z, each laid out before the next is made.
func (s *site) writeAToZ(print func(page) error) error {
	first := &aToZPage{frame: s.frame(s.aToZFile(), aToZHeading), Makers: s.makers, Traits: s.askedTraits()}
	first.Data = "catalogue.json"
	first.describe("All part numbers, their other numbers, platforms by maker, and what tells vehicles apart.")
	groups, total := s.numbers()
	for _, g := range groups {
		if total <= hereAtMost {
			g.letter.Numbers = g.all
		} else if err := s.numberPages(g, print); err != nil {
			return err
		}
		first.Letters = append(first.Letters, g.letter)
	}
	return print(first)
}

// group is the numbers of one letter.
type group struct {
	letter letter
	file   string // what the files of its pages are called
	all    []number
}

// numbers lists all numbers by their first character, in the order in which search folds
// them.
func (s *site) numbers() (groups []*group, total int) {
	type folded struct {
		key string
		number
	}
	var all []folded
	add := func(n number) {
		all = append(all, folded{strings.ReplaceAll(search.Fold(n.Number), " ", ""), n})
	}
	for _, p := range s.cat.Parts {
		add(number{Number: p.Number, Href: s.partFiles[p], Name: p.Name, Status: statusWord(p)})
	}
	for _, r := range s.cat.References {
		if r.Number != "" && r.Part != nil {
			add(number{Number: r.Number, Href: s.partFiles[r.Part], Part: r.Part.Number, Source: r.Source, Kind: r.Kind})
		}
	}
	slices.SortFunc(all, func(a, b folded) int {
		return cmp.Or(natural(a.key, b.key), cmp.Compare(a.Number, b.Number), cmp.Compare(a.Part, b.Part))
	})
	for _, n := range all {
		name, file := firstCharacter(n.key)
		if len(groups) == 0 || groups[len(groups)-1].file != file {
			groups = append(groups, &group{letter: letter{Name: name, Anchor: "numbers-" + file}, file: file})
		}
		g := groups[len(groups)-1]
		g.all = append(g.all, n.number)
	}
	return groups, len(all)
}

// natural compares folded numbers as people look them up: runs of digits by what they
// count, all else letter by letter.
func natural(a, b string) int {
	for a != "" && b != "" {
		x, y := digitsBefore(a), digitsBefore(b)
		if x == 0 || y == 0 {
			p, n := utf8.DecodeRuneInString(a)
			q, m := utf8.DecodeRuneInString(b)
			if p != q {
				return cmp.Compare(p, q)
			}
			a, b = a[n:], b[m:]
			continue
		}
		p, q := strings.TrimLeft(a[:x], "0"), strings.TrimLeft(b[:y], "0")
		if c := cmp.Or(cmp.Compare(len(p), len(q)), cmp.Compare(p, q), cmp.Compare(x, y)); c != 0 {
			return c
		}
		a, b = a[x:], b[y:]
	}
	return cmp.Compare(len(a), len(b))
}

// digitsBefore counts the digits that a text begins with.
func digitsBefore(text string) int { return len(text) - len(strings.TrimLeft(text, "0123456789")) }

// firstCharacter gives the character that a folded number begins with, and what its
// files are called.
func firstCharacter(key string) (name, file string) {
	r, _ := utf8.DecodeRuneInString(key)
	switch {
	case key == "":
		return "", noCharacterAs
	case r < utf8.RuneSelf:
		return strings.ToUpper(string(r)), string(r)
	}
	return strings.ToUpper(string(r)), fmt.Sprintf("u%04x", r)
}

// numberPages spreads the numbers of a letter over pages, to which the letter leads.
func (s *site) numberPages(g *group, print func(page) error) error {
	file := func(i int) string {
		if i == 0 {
			return "a-z/" + g.file + ".html"
		}
		return fmt.Sprintf("a-z/%s-%d.html", g.file, i+1)
	}
	pages := (len(g.all) + onPageAtMost - 1) / onPageAtMost
	for i := range pages {
		numbers := g.all[i*onPageAtMost : min((i+1)*onPageAtMost, len(g.all))]
		at := span{First: numbers[0].Number, Last: numbers[len(numbers)-1].Number, Href: file(i)}
		p := &numbersPage{frame: s.frame(file(i), "Numbers "+at.First+" to "+at.Last), Letter: g.letter.Name}
		for _, n := range numbers {
			if n.Href != "" {
				n.Href = p.Root + n.Href
			}
			p.Numbers = append(p.Numbers, n)
		}
		p.Data = "catalogue.json"
		p.describe("Part numbers and their other numbers, from " + at.First + " to " + at.Last + ".")
		if i > 0 {
			p.Before = file(i - 1)
		}
		if i < pages-1 {
			p.Behind = file(i + 1)
		}
		g.letter.Pages = append(g.letter.Pages, at)
		if err := print(p); err != nil {
			return err
		}
	}
	return nil
}

// askedTraits lists what tells vehicles apart, as declared, with the guides that ask.
func (s *site) askedTraits() []askedTrait {
	var out []askedTrait
	for _, t := range s.cat.Traits {
		on := s.asked[t]
		a := askedTrait{Name: t.Name, Anchor: s.traits[t], Question: t.Question, Count: len(on)}
		for _, v := range t.Values {
			a.Values = append(a.Values, v.Name)
		}
		slices.SortFunc(on, func(a, b *model.Platform) int { return a.Index - b.Index })
		if len(on) <= linkedAtMost {
			for _, p := range on {
				a.Platforms = append(a.Platforms, link{p.Name, s.platformFiles[p] + "#" + s.traits[t]})
			}
		}
		out = append(out, a)
	}
	return out
}

// statusWord is "" for a current part.
func statusWord(p *model.Part) string {
	if p.Status == model.Current {
		return ""
	}
	return p.Status.String()
}
