package guide

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// number is a part's number, or another number of a part.
type number struct {
	Number string
	Href   string // of the part's page; "" for a part that nothing declares
	// Of a part's own number.
	Name, Status string
	// Of another number: the part, who uses it, and what kind of number it is.
	Part, Source, Kind string
}

// numbersPage lists numbers that begin with one character, where there are many.
type numbersPage struct {
	frame
	Letter         string
	Numbers        []number
	Before, Behind string // the pages before and behind; "" at the ends
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
	type keyed struct {
		key string
		number
	}
	var all []keyed
	add := func(n number) {
		all = append(all, keyed{folded(n.Number), n})
	}
	for _, p := range s.cat.Parts {
		add(number{Number: p.Number, Href: s.partFiles[p], Name: p.Name, Status: s.statusWord(p)})
	}
	for _, r := range s.cat.References {
		if r.Number != "" && r.Part != nil {
			add(number{Number: r.Number, Href: s.partFiles[r.Part], Part: r.Part.Number, Source: r.Source, Kind: r.Kind})
		}
	}
	slices.SortFunc(all, func(a, b keyed) int {
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
		return "", "other"
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
		p := &numbersPage{frame: s.frame(file(i), s.tongue.Say("Numbers %s to %s", at.First, at.Last)), Letter: g.letter.Name}
		for _, n := range numbers {
			if n.Href != "" {
				n.Href = p.Root + n.Href
			}
			p.Numbers = append(p.Numbers, n)
		}
		p.Data = "catalogue.json"
		p.describe(s.tongue.Say("Part numbers and their other numbers, from %s to %s.", at.First, at.Last))
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
