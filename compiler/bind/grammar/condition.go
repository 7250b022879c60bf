package grammar

import (
	"fmt"
	"strings"

	"ferrule/schema/word"
)

// Condition is what a cell under a trait says.
type Condition struct {
	Any   bool   // blank, or any
	Fault string // not "": a sentence that says why it cannot be read
	List         // of terms, otherwise
}

// ReadCondition reads a cell under a trait. What its names say is read by ReadTerm.
func ReadCondition(text string) Readings[Condition] {
	whole := strings.TrimSpace(text)
	if whole == "" {
		return Readings[Condition]{{As: Condition{Any: true}}}
	}
	out := Readings[Condition]{{If: whole, As: Condition{List: List{Pieces: []Piece{{{As: []string{whole}}}}}}}}
	switch word.Fold(text) {
	case "any":
		return append(out, Reading[Condition]{As: Condition{Any: true}})
	case "not":
		return append(out, Reading[Condition]{As: Condition{Fault: fmt.Sprintf("%q stands alone; write which values it excludes", text)}})
	}
	for _, way := range ReadList(text) {
		out = append(out, Reading[Condition]{way.If, Condition{List: way.As}})
	}
	return out
}

// String writes the condition as a cell; "" where it cannot be read.
func (c Condition) String() string {
	switch {
	case c.Any:
		return "any"
	case c.Fault != "":
		return ""
	}
	return c.List.String()
}
