// Package search writes the index that the search field of the pages reads: what the
// field finds, under every word and number by which people ask for it.
//
// The index is cut into pieces of bounded size, each a script that hands its data to
// the page, since pages opened from a folder may load scripts and nothing else. A piece
// holds a stretch of the sorted keys, so that a query needs one or two pieces of however
// large an index. The first file says which stretch each piece holds.
//
// How words are folded must be the same here and in the script that asks; a test holds
// the two together.
package search

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"
)

// Entry is one thing that can be found.
type Entry struct {
	Kind  int      // index into the kinds given to Write; of equal keys the smaller comes first
	Title string   // its name or number, under which it is found
	Note  string   // what else is shown
	Words string   // other words under which it is found
	Also  []string // other names or numbers, under which it is found as under its title
	Href  string   // relative to the public folder
	More  any      // what the script has to know besides; nil: nothing
}

// Place is a position of the catalogue, which is found on a platform.
type Place struct {
	Name   string
	Own    string // what the workbook calls it, under which it is found in every language
	Anchor string // on the page of a platform that has it
}

// Limits of an index.
const (
	pieceAtMost = 48 << 10 // bytes of a piece, apart from a single entry that is longer
	keysAtMost  = 16       // of an entry
	keyAtMost   = 32       // letters of a key; the script cuts queries alike
	textAtMost  = 90       // letters of a title or note
	// commonAtMost is how many entries stand under one key; whoever asks for a commoner
	// word is asked for another.
	commonAtMost = 400
)

// posting is a key with an entry that stands under it.
type posting struct {
	key   string
	entry int32
}

// postings sorts what is under each key, commonest words cut short; common are the keys
// that were cut.
func postings(entries []Entry) (sorted []posting, common []string) {
	all := make([]posting, 0, 6*len(entries))
	for i := range entries {
		for _, k := range keys(&entries[i]) {
			all = append(all, posting{k, int32(i)})
		}
	}
	slices.SortFunc(all, func(a, b posting) int {
		return cmp.Or(compare(a.key, b.key), cmp.Compare(entries[a.entry].Kind, entries[b.entry].Kind), cmp.Compare(a.entry, b.entry))
	})
	sorted = all[:0] // what is left out makes room for what comes behind it
	for i, run := 0, 0; i < len(all); i++ {
		if i > 0 && all[i].key == all[i-1].key {
			run++
		} else {
			run = 0
		}
		switch {
		case run < commonAtMost:
			sorted = append(sorted, all[i])
		case run == commonAtMost:
			common = append(common, all[i].key)
		}
	}
	return sorted, common
}

// compare orders keys as scripts compare strings, by UTF-16 units: as by letters, but
// that a letter beyond the first 65,536 begins with a unit from 0xd800 on.
func compare(a, b string) int {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	if n == len(a) || n == len(b) {
		return cmp.Compare(len(a), len(b))
	}
	for n > 0 && !(utf8.RuneStart(a[n]) && utf8.RuneStart(b[n])) {
		n--
	}
	x, _ := utf8.DecodeRuneInString(a[n:])
	y, _ := utf8.DecodeRuneInString(b[n:])
	if beyond := x > 0xffff; beyond != (y > 0xffff) {
		if beyond {
			return cmp.Compare(0xd800, y)
		}
		return cmp.Compare(x, 0xd800)
	}
	return strings.Compare(a, b)
}
