package markup

import (
	"strings"

	"ferrule/schema"
)

// names is what some workbooks declare and headings of others are called after, folded.
type names struct {
	positions, traits map[string]bool
}

// kindOf gives the kind of a sheet, or the word that stands where it should, and "" for a
// sheet that is left alone.
func kindOf(sheet string) string {
	kind, _ := schema.KindOf(sheet)
	return kind
}

// fold is how headings and names are compared: case folded, white space collapsed.
func fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// gather collects the names that the books declare.
func gather(books []Book) *names {
	n := &names{positions: map[string]bool{}, traits: map[string]bool{}}
	for _, b := range books {
		for i := range b.Sheets {
			s := &b.Sheets[i]
			switch kindOf(s.Name) {
			case schema.Positions:
				take(n.positions, s.column("Position"))
			case schema.Traits:
				take(n.traits, s.column("Trait"))
			}
		}
	}
	return n
}

func take(into map[string]bool, names []string) {
	for _, name := range names {
		into[fold(name)] = true
	}
}

// position tells whether a heading is the name of a position.
func (n *names) position(heading string) bool { return n.positions[fold(heading)] }

// condition tells whether a heading is a condition column.
func (n *names) condition(heading string) bool {
	c, _ := schema.Like(schema.Fitment, heading)
	return c.Holds == schema.HoldsPlatform || c.Holds == schema.HoldsYears || n.traits[fold(heading)]
}

func quoted(sheet string) string { return strings.ReplaceAll(sheet, "'", "''") }
