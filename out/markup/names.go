package markup

import (
	"strings"

	"ferrule/compiler/model"
	"ferrule/schema"
)

// listSheet is the sheet that Link adds: names that other workbooks declare, one
// list a column. The reader leaves it alone, as any sheet that begins with "_".
const listSheet = "_Lists"

// list is what can be picked in a column: names under a heading of a sheet.
type list struct {
	heading string // how a _Lists sheet heads it
	names   []string
	book    string // the workbook that declares the names
}

// names is what some workbooks declare and others refer to.
type names struct {
	platforms, positions, parts, cautions list
	traits                                []trait
}

type trait struct {
	list
	size   bool
	onLine bool // its values are serial numbers or dates, of which there is no list
}

// kindOf gives the kind of a sheet, or the word that stands where it should, and "" for a
// sheet that is left alone.
func kindOf(sheet string) string {
	kind, _ := schema.KindOf(sheet)
	return kind
}

// fold is how headings and names are compared: case folded, white space collapsed.
func fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// gather collects the names that the books declare, or list in a _Lists sheet. Of
// names declared twice the first one holds.
func gather(books []Book) *names {
	n := &names{}
	for _, b := range books {
		for i := range b.Sheets {
			s := &b.Sheets[i]
			switch kindOf(s.Name) {
			case schema.Platforms:
				n.platforms.take(b.Name, "Platform", s.column("Platform"))
			case schema.Positions:
				n.positions.take(b.Name, "Position", s.column("Position"))
			case schema.Parts:
				n.parts.take(b.Name, "Part", s.column("Part"))
			case schema.Cautions:
				n.cautions.take(b.Name, "Cautions", s.column("Caution"))
			case schema.Traits:
				n.takeTraits(b.Name, s)
			}
		}
	}
	for _, b := range books {
		for i := range b.Sheets {
			if s := &b.Sheets[i]; s.Name == listSheet {
				n.takeLists(s)
			}
		}
	}
	return n
}

func (l *list) take(book, heading string, names []string) {
	if len(l.names) == 0 {
		*l = list{heading, names, book}
	}
}

// takeTraits reads a Traits sheet: each trait's values as declared, without the rows
// that hold texts for one platform only.
func (n *names) takeTraits(book string, s *Sheet) {
	at := map[string]int{}
	for i, h := range s.headings() {
		at[fold(h)] = i + 1
	}
	get := func(row []Cell, heading string) string {
		if i := at[heading]; i > 0 && i <= len(row) {
			return row[i-1].Text
		}
		return ""
	}
	if s.header() >= len(s.Rows) {
		return
	}
	for _, row := range s.Rows[s.header()+1:] {
		name, value := get(row, "trait"), get(row, "value")
		if name == "" || value == "" || get(row, "platform") != "" {
			continue
		}
		t := n.trait(name)
		if t == nil {
			n.traits = append(n.traits, trait{list: list{heading: name, book: book}})
			t = &n.traits[len(n.traits)-1]
		}
		kind := fold(get(row, "kind"))
		t.onLine = t.onLine || kind == model.Serial.String() || kind == model.Date.String()
		if !t.onLine { // there the value is all that there are
			t.names = append(t.names, value)
		}
		t.size = t.size || kind == model.Size.String()
	}
}

// takeLists reads a _Lists sheet; what is not one of the known lists is a trait's.
func (n *names) takeLists(s *Sheet) {
	for _, h := range s.headings() {
		switch found := s.column(h); fold(h) {
		case "platform":
			n.platforms.take("", h, found)
		case "position":
			n.positions.take("", h, found)
		case "part":
			n.parts.take("", h, found)
		case schema.Cautions:
			n.cautions.take("", h, found)
		default:
			if n.trait(h) == nil {
				n.traits = append(n.traits, trait{list: list{heading: h, names: found}})
			}
		}
	}
}

func (n *names) trait(name string) *trait {
	for i := range n.traits {
		if fold(n.traits[i].heading) == fold(name) {
			return &n.traits[i]
		}
	}
	return nil
}

// position tells whether a heading is the name of a position.
func (n *names) position(heading string) bool {
	for _, p := range n.positions.names {
		if fold(p) == fold(heading) {
			return true
		}
	}
	return false
}

// condition tells whether a heading is a condition column.
func (n *names) condition(heading string) bool {
	c, _ := schema.Like(schema.Fitment, heading)
	return c.Holds == schema.HoldsPlatform || c.Holds == schema.HoldsYears || n.trait(heading) != nil
}
