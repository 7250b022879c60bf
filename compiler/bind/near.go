package bind

import (
	"slices"

	"ferrule/compiler/intake/table/glyph"
	"ferrule/schema/word"
)

// nearParts finds part numbers like one that nobody has, without going through all for
// each: a wrong prefix makes thousands unknown.
type nearParts struct {
	list  []string
	slips *word.Slips
	looks map[string][]int // numbers by what they look like, in each case
}

// likeParts gives what finds part numbers, once all are declared.
func (b *binder) likeParts() *nearParts {
	if b.nearParts != nil {
		return b.nearParts
	}
	n := &nearParts{list: b.partList, slips: word.NewSlips(b.partList), looks: map[string][]int{}}
	for i, number := range n.list {
		for _, look := range looks(number) {
			n.looks[look] = append(n.looks[look], i)
		}
	}
	b.nearParts = n
	return n
}

// looksLike is looksLike of the numbers that can look the same.
func (n *nearParts) looksLike(number string) string {
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
