package lexicon

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/intake/table/glyph"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// near finds part numbers like one that nobody has, without going through all for
// each: a wrong prefix makes thousands unknown.
type near struct {
	list  []string
	slips *word.Slips
	looks map[string][]int // numbers by what they look like, in each case
}

// likeParts gives what finds part numbers, once all are declared.
func (x *Lexicon) likeParts() *near {
	if x.near != nil {
		return x.near
	}
	n := &near{list: x.numbers, slips: word.NewSlips(x.numbers), looks: map[string][]int{}}
	for i, number := range n.list {
		for _, look := range looks(number) {
			n.looks[look] = append(n.looks[look], i)
		}
	}
	x.near = n
	return n
}

// looksLike is looksLike of the numbers that can look the same.
func (n *near) looksLike(number string) string {
	var at []int
	for _, look := range looks(number) {
		at = append(at, n.looks[look]...)
	}
	slices.Sort(at)
	var list []string
	for _, i := range slices.Compact(at) {
		list = append(list, n.list[i])
	}
	return looksLike(number, list)
}

// looks is what a name looks like in each case in which difference compares it.
func looks(name string) []string {
	var out []string
	for i, in := range cases() {
		out = append(out, string(rune('0'+i))+glyph.Skeleton(in(name)))
	}
	return out
}

// NoPart says that no part has a number, and which one may be meant: the one that differs in
// one letter is given as well.
func (x *Lexicon) NoPart(number string) (says string, meant *model.Part) {
	if len(x.numbers) == 0 {
		return fmt.Sprintf("part %q is not declared, and no part is", number), nil
	}
	says = fmt.Sprintf("no part is called %q", number)
	if d := x.likeParts().looksLike(number); d != "" {
		return says + d, nil
	}
	n := x.nearPart(number)
	if n == "" {
		return says, nil
	}
	meant, _ = x.Part(n)
	return says + "; did you mean " + n + "?", meant
}

// alikePart gives the one current part whose number differs from a text in nothing but
// spaces, hyphens, case, and letters that look like digits, or "".
func (x *Lexicon) alikePart(text string) string {
	if same := x.sameShape(text); len(same) == 1 {
		return same[0]
	}
	return ""
}

// sameShape gives the current parts whose numbers hands and eyes confuse with a text.
func (x *Lexicon) sameShape(text string) []string {
	if x.shapes == nil {
		x.shapes = map[string][]string{}
		for _, n := range x.numbers {
			if x.current(n) {
				x.shapes[shape(n)] = append(x.shapes[shape(n)], n)
			}
		}
	}
	return x.shapes[shape(text)]
}

func (x *Lexicon) current(number string) bool {
	p, ok := x.Part(number)
	return ok && p.Status == model.Current
}

// alike takes signs off a number that hands leave out, and gives letters the digits that
// look like them.
var alike = strings.NewReplacer(" ", "", "-", "", "_", "", ".", "", "o", "0", "i", "1", "l", "1")

// shape is a number as hands and eyes confuse it.
func shape(number string) string { return alike.Replace(word.Fold(number)) }

// nearPart gives the one current part that may be meant by a number that no part has: it
// looks the same or differs in one letter. Where two are as near there is none.
func (x *Lexicon) nearPart(number string) string {
	switch same := x.sameShape(number); {
	case len(same) == 1:
		return same[0]
	case len(same) > 1 || len([]rune(word.Fold(number))) < 2:
		return ""
	}
	if n := x.ending(number); n != "" {
		return n
	}
	near := x.likeParts().slips.Within(number)
	near = slices.DeleteFunc(near, func(n string) bool { return !x.current(n) })
	if len(near) == 1 {
		return near[0]
	}
	return ""
}

// ending gives the one current part whose number ends in digits that stand alone, or "".
func (x *Lexicon) ending(digits string) string {
	if len(digits) < 3 || strings.Trim(digits, "0123456789") != "" {
		return ""
	}
	var found []string
	for _, n := range x.numbers {
		head, ends := strings.CutSuffix(n, digits)
		if !ends || head == "" || strings.ContainsAny(head[len(head)-1:], "0123456789") {
			continue
		}
		if x.current(n) {
			found = append(found, n)
		}
	}
	if len(found) == 1 {
		return found[0]
	}
	return ""
}
