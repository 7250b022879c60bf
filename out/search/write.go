package search

import (
	"bytes"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// First is the file that a page loads when the search field is entered. The pieces lie
// beside it in the folder search.
const First = "search-index.js"

// directory is what the first file holds.
type directory struct {
	Kinds  []string   `json:"kinds"`
	Keys   []string   `json:"keys"`    // the first key of each piece
	Common []string   `json:"common"`  // keys under which not all entries stand
	Places [][]string `json:"places"`  // name, anchor, and the workbook's name where that is another
	Of     string     `json:"version"` // tells the pieces of one index from those of another
}

// piece holds entries and, for each key of its stretch, which of them stand under it.
type piece struct {
	Entries []json.RawMessage `json:"entries"`
	Keys    []any             `json:"keys"` // key, list of entries, key, list of entries …
}

// shown is an entry as the script shows it: kind, title, note, address, and what else it has to
// know, where that is something.
type shown []any

func shownOf(e *Entry) shown {
	out := shown{e.Kind, e.Title, e.Note, e.Href}
	if e.More != nil {
		out = append(out, e.More)
	}
	return out
}

// Write makes the files of an index, one at a time. kinds names the kinds of entries as
// people read them; places are numbered as they stand, for what entries say of them. The entries are cut to what is shown; the data are only valid during
// the call.
func Write(kinds []string, places []Place, entries []Entry, emit func(name string, data []byte) error) error {
	for i, e := range entries {
		entries[i].Title, entries[i].Note, entries[i].Words = plain(e.Title), plain(e.Note), plain(e.Words)
	}
	sorted, common := postings(entries)
	dir := directory{Kinds: kinds, Keys: []string{}, Common: common, Places: [][]string{}}
	for _, p := range places {
		place := []string{plain(p.Name), p.Anchor}
		if own := plain(p.Own); own != "" && own != place[0] {
			place = append(place, own)
		}
		dir.Places = append(dir.Places, place)
	}
	if common == nil {
		dir.Common = []string{}
	}
	sum := fnv.New64a()
	for len(sorted) > 0 {
		p, rest, err := take(entries, sorted)
		if err != nil {
			return err
		}
		text, err := call(len(dir.Keys), p)
		if err != nil {
			return err
		}
		sum.Write(text)
		if err := emit(fmt.Sprintf("search/%d.js", len(dir.Keys)), text); err != nil {
			return err
		}
		dir.Keys = append(dir.Keys, sorted[0].key)
		sorted = rest
	}
	dir.Of = fmt.Sprintf("%016x", sum.Sum64())
	text, err := call(-1, dir)
	if err != nil {
		return err
	}
	return emit(First, text)
}

// take fills a piece from the front of the postings and gives those that are left.
func take(entries []Entry, sorted []posting) (*piece, []posting, error) {
	p := &piece{}
	at := map[int32]int{}
	size := 0
	for i, s := range sorted {
		n, known := at[s.entry]
		if !known {
			e := &entries[s.entry]
			text, err := json.Marshal(shownOf(e))
			if err != nil {
				return nil, nil, err
			}
			if size += len(text); size > pieceAtMost && i > 0 {
				return p, sorted[i:], nil
			}
			n = len(p.Entries)
			at[s.entry], p.Entries = n, append(p.Entries, text)
		}
		last := len(p.Keys) - 1
		if i == 0 || s.key != sorted[i-1].key {
			p.Keys = append(p.Keys, s.key, []int{})
			last += 2
			size += len(s.key) + 6
		}
		p.Keys[last] = append(p.Keys[last].([]int), n)
		size += 5
	}
	return p, nil, nil
}

// plain makes a text fit for one line of the list: white space and marks of direction
// become single spaces, and what is long is cut.
func plain(text string) string {
	line := strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)
	}), " ")
	if utf8.RuneCountInString(line) > textAtMost {
		line = cut(line, textAtMost-1) + "…"
	}
	return line
}

// call writes a script that hands data to the page's search. JSON is written with every
// `<`, `>` and `&` escaped, and with the two line separators that scripts do not allow.
func call(n int, data any) ([]byte, error) {
	text, err := json.Marshal(data)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "guideSearch(%d,%s)\n", n, text)
	return b.Bytes(), nil
}
