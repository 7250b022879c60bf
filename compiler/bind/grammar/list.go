package grammar

import (
	"regexp"
	"strings"
)

// List is what a cell says that lists names.
type List struct {
	Not    bool // it lists those that are left out
	Pieces []Piece
}

// Piece is what stands between two separators: the names in it. It is one name where it
// is declared, whatever it holds, and otherwise those that `or` parts.
type Piece = Readings[[]string]

var orWord = regexp.MustCompile(`(?i)[\s\p{Z}]+or[\s\p{Z}]+`)

// Separator tells whether a sign parts the names of a list.
func Separator(r rune) bool { return r == ',' || r == ';' || r == '\n' || r == '\r' }

// ReadList reads a list of names. `not` before its first piece stands for the whole list,
// unless it belongs to the name there.
func ReadList(text string) Readings[List] {
	var pieces []Piece
	rest, first, negated := "", "", false
	for i, said := range strings.FieldsFunc(text, Separator) {
		if said = spaced(said); said == "" {
			continue
		}
		if i == 0 {
			first = said
			rest, negated = cutWord(said, "not")
		}
		pieces = append(pieces, readPiece(said))
	}
	asItStands := List{Pieces: pieces}
	if !negated {
		return Readings[List]{{As: asItStands}}
	}
	without := List{Not: true, Pieces: append([]Piece{readPiece(rest)}, pieces[1:]...)}
	out := Readings[List]{{If: first, As: asItStands}}
	if name := strings.TrimSpace(orWord.Split(first, 2)[0]); name != first {
		out = append(out, Reading[List]{If: name, As: asItStands})
	}
	return append(out, Reading[List]{As: without})
}

// readPiece reads what stands between two separators.
func readPiece(said string) Piece {
	names := parted(said)
	if len(names) == 1 && names[0] == said {
		return Piece{{As: names}}
	}
	return Piece{{If: said, As: []string{said}}, {As: names}}
}

// parted gives what `or` parts.
func parted(said string) []string {
	var names []string
	for name := range strings.SplitSeq(orWord.ReplaceAllString(" "+said+" ", "\n"), "\n") {
		if name = strings.TrimSpace(name); name != "" {
			names = append(names, name)
		}
	}
	return names
}

// Names gives the names that are listed where these are declared, and those that are not.
func (l List) Names(declared func(name string) bool) []string {
	var names []string
	for _, p := range l.Pieces {
		names = append(names, p.Take(declared)...)
	}
	return names
}

// String writes the list as a cell.
func (l List) String() string {
	if len(l.Pieces) == 0 {
		return ","
	}
	said := make([]string, len(l.Pieces))
	for i, p := range l.Pieces {
		said[i] = p[0].As[0] // the whole of it, or the one name in it
	}
	if l.Not {
		said[0] = "not " + said[0]
	}
	return strings.Join(said, ", ")
}

// spaced is a text with single spaces between its words.
func spaced(text string) string { return strings.Join(strings.Fields(text), " ") }

// cutWord cuts a word and the space behind it from the beginning of a text.
func cutWord(text, word string) (rest string, ok bool) {
	n := len(word)
	if len(text) <= n || text[n] != ' ' || !strings.EqualFold(text[:n], word) {
		return text, false
	}
	return text[n+1:], true
}

// none is a catalogue that declares nothing.
func none(string) bool { return false }
