package grammar

import (
	"regexp"
	"strings"

	"ferrule/schema/word"
)

// Kind is what sort of thing a term says.
type Kind uint8

const (
	Name    Kind = iota // a name
	Absent              // n/a
	Stretch             // all from one name to another, in their order
	Any                 // any, which can only stand alone in its cell
	Not                 // not, which can only stand before the whole list
)

// Term is what one of the names in a condition says.
type Term struct {
	Kind     Kind
	Name     string // of Name, and behind Not
	From, To string // of Stretch; "" for an end that it leaves open
}

var toWord = regexp.MustCompile(`(?i) to `)

// ReadTerm reads one of the names in a condition. A declared name is that name, whatever
// word it is or begins with.
func ReadTerm(said string) Readings[Term] {
	name := Term{Name: said}
	term := readTerm(said)
	if term == name {
		return Readings[Term]{{As: name}}
	}
	return Readings[Term]{{If: said, As: name}, {As: term}}
}

// readTerm reads what is no name. Values stand in an order where they are stretched over:
// every way to write a stretch belongs here.
func readTerm(said string) Term {
	switch word.Fold(said) {
	case "n/a":
		return Term{Kind: Absent}
	case "any":
		return Term{Kind: Any}
	}
	if rest, ok := cutWord(said, "not"); ok {
		return Term{Kind: Not, Name: rest}
	}
	if rest, ok := cutWord(said, "to"); ok {
		return Term{Kind: Stretch, To: rest}
	}
	if rest, ok := cutWord(said, "from"); ok {
		if at := toWord.FindStringIndex(rest); at != nil {
			return Term{Kind: Stretch, From: rest[:at[0]], To: rest[at[1]:]}
		}
		return Term{Kind: Stretch, From: rest}
	}
	return Term{Name: said}
}

// String writes the term as it stands in a list.
func (t Term) String() string {
	switch {
	case t.Kind == Absent:
		return "n/a"
	case t.Kind == Any:
		return "any"
	case t.Kind == Not:
		return "not " + t.Name
	case t.Kind == Name:
		return t.Name
	case t.From == "":
		return "to " + t.To
	case t.To == "":
		return "from " + t.From
	}
	return strings.Join([]string{"from", t.From, "to", t.To}, " ")
}
