package markup

import (
	"fmt"
	"strings"

	"ferrule/schema"
)

// choice is what a column's cells can be picked from.
type choice struct {
	fixed  []string // the only values that the format allows; nil for names
	offer  *list    // names; others can be typed, since cells hold more than one name
	strict bool     // other values are refused
}

// choice gives what can be picked in a column of a sheet, and false where it is free. Of
// Settings the rows are there already.
func (n *names) choice(kind, heading string) (choice, bool) {
	if kind == schema.Settings {
		return choice{}, false
	}
	if c, _ := schema.Find(kind, heading); c.Words != nil {
		return choice{fixed: c.Words, strict: true}, true
	}
	if l := n.offered(kind, heading); l != nil && len(l.names) > 0 {
		return choice{offer: l}, true
	}
	return choice{}, false
}

// offered gives the list that a column takes its names from, nil for none. The sheet
// that declares the names gets no list of them.
func (n *names) offered(kind, heading string) *list {
	c, own := schema.Find(kind, heading)
	if !own {
		return n.offeredFurther(kind, heading)
	}
	switch c.Holds {
	case schema.HoldsPlatform:
		return other(c, &n.platforms)
	case schema.HoldsPosition:
		return other(c, &n.positions)
	case schema.HoldsPart:
		return other(c, &n.parts)
	case schema.HoldsFits:
		return &n.parts
	case schema.HoldsCautions:
		return &n.cautions
	case schema.HoldsTrait:
		return other(c, n.namedTraits(kind == schema.Positions))
	}
	return nil
}

// other gives a list to a column that does not declare what is on it.
func other(c schema.Column, l *list) *list {
	if c.Declares {
		return nil
	}
	return l
}

// offeredFurther is offered for a column that the kind of sheet does not define.
func (n *names) offeredFurther(kind, heading string) *list {
	switch further := schema.FurtherOf(kind); {
	case further.Positions && n.position(heading):
		return &n.parts
	case further.Traits && n.trait(heading) != nil:
		return &n.trait(heading).list
	}
	return nil
}

// namedTraits gives the traits, or those alone that a position's air line can be.
func (n *names) namedTraits(sizes bool) *list {
	l := &list{heading: "Trait"}
	if sizes {
		l.heading = "Air line"
	}
	for _, t := range n.traits {
		if t.size || !sizes {
			l.names = append(l.names, t.heading)
			l.book = t.book
		}
	}
	return l
}

// source gives the formula of the list: the declaring sheet, so that the list grows
// with it, else a column of the book's _Lists sheet, else the names themselves; ""
// where those are too long for a spreadsheet program.
func (c *choice) source(b *Book) string {
	if c.fixed != nil {
		return inline(c.fixed)
	}
	for i := range b.Sheets {
		s := &b.Sheets[i]
		switch kind := kindOf(s.Name); {
		case kind == schema.Platforms && c.offer.heading == "Platform",
			kind == schema.Positions && c.offer.heading == "Position",
			kind == schema.Parts && c.offer.heading == "Part":
			return growing(s, c.offer.heading)
		case kind == schema.Cautions && c.offer.heading == "Cautions":
			return growing(s, "Caution")
		case kind == schema.Traits:
			if f := growingTrait(s, c.offer); f != "" {
				return f
			}
		case s.Name == listSheet:
			if f := listed(s, c.offer.heading); f != "" {
				return f
			}
		}
	}
	return inline(c.offer.names)
}

// growing gives a formula for the filled cells under a heading, however many there
// come to be.
func growing(s *Sheet, heading string) string {
	col, ok := s.find(heading)
	if !ok {
		return ""
	}
	first := s.header() + 2
	return fmt.Sprintf("OFFSET('%[1]s'!$%[2]s$%[3]d,0,0,MAX(1,COUNTA('%[1]s'!$%[2]s$%[3]d:$%[2]s$%[4]d)),1)",
		quoted(s.Name), col, first, first+lastListed)
}

// growingTrait gives a formula for the values of a trait, "" where its rows do not
// stand together or texts for one platform stand before or among them.
func growingTrait(s *Sheet, l *list) string {
	name, ok1 := s.find("Trait")
	value, ok2 := s.find("Value")
	if !ok1 || !ok2 || !together(s, l) {
		return ""
	}
	column := func(col string) string {
		return fmt.Sprintf("'%s'!$%[2]s$1:$%[2]s$%[3]d", quoted(s.Name), col, lastListed)
	}
	wanted := `"` + strings.ReplaceAll(l.heading, `"`, `""`) + `"`
	count := "COUNTIF(" + column(name) + "," + wanted + ")"
	if platform, ok := s.find("Platform"); ok {
		count = "COUNTIFS(" + column(name) + "," + wanted + "," + column(platform) + `,"")`
	}
	return fmt.Sprintf("OFFSET('%s'!$%s$1,MATCH(%s,%s,0)-1,0,%s,1)",
		quoted(s.Name), value, wanted, column(name), count)
}

// together tells whether the list's names stand one under the other, from the first
// row of their trait on.
func together(s *Sheet, l *list) bool {
	trait, value := s.index("Trait"), s.index("Value")
	for r, row := range s.Rows {
		if r <= s.header() || len(row) <= max(trait, value) || fold(row[trait].Text) != fold(l.heading) {
			continue
		}
		for i, name := range l.names {
			if r+i >= len(s.Rows) || len(s.Rows[r+i]) <= value || s.Rows[r+i][value].Text != name {
				return false
			}
		}
		return true
	}
	return false
}

// lastListed is how many rows a growing list looks through.
const lastListed = 5000

// listed gives the range of a column of a _Lists sheet.
func listed(s *Sheet, heading string) string {
	col, ok := s.find(heading)
	if !ok {
		return ""
	}
	first := s.header() + 2
	return fmt.Sprintf("'%s'!$%[2]s$%[3]d:$%[2]s$%[4]d", quoted(s.Name), col, first, first+len(s.column(heading))-1)
}

func quoted(sheet string) string { return strings.ReplaceAll(sheet, "'", "''") }

// longestInline is how many characters a list that is written out may have
// (Microsoft's documentation of data validation).
const longestInline = 255

// inline writes a list out, "" where it would be too long or a name holds a comma.
func inline(names []string) string {
	text := strings.Join(names, ",")
	if len(text) > longestInline || strings.Count(text, ",") >= len(names) {
		return ""
	}
	return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
}
