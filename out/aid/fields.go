package aid

import (
	"fmt"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/out/patch"
	"ferrule/schema/word"
)

// columns adds lists and notes.
func (s *planned) columns() {
	var noted, ruled []string
	picks, still, notes := 0, 0, 0
	for i := range s.table.Columns {
		c := &s.table.Columns[i]
		of := s.names.about(s.table, c)
		switch {
		case of.about == "":
		case s.state.Notes[c.At]:
			noted = append(noted, c.Name)
		default:
			s.notes = append(s.notes, patch.Cell{Sheet: s.aid.Sheet, At: c.At, Note: func(string) string { return of.about }})
			notes++
		}
		p := s.pick(c, of)
		switch {
		case p == nil:
			continue
		case s.state.Picked(p.At):
			ruled = append(ruled, c.Name)
		default:
			s.aid.Picks = append(s.aid.Picks, *p)
			picks++
			if of.fixed == nil && !strings.HasPrefix(p.From, growing) {
				still++
			}
		}
	}
	if picks > 0 {
		s.added("%s", many(picks, "a list to pick from", "%d lists to pick from"))
		if still > 0 {
			s.added("%s", many(still, "of which one has the names as they are today", "of which %d have the names as they are today"))
		}
	}
	if notes > 0 {
		s.added("%s", many(notes, "a note on a heading", "notes on %d headings"))
	}
	if n := len(noted); n > 0 {
		s.kept(many(n, "the note on "+noted[0], "the notes on %d headings"))
	}
	if n := len(ruled); n > 0 {
		s.kept(many(n, "the rule for cells under "+ruled[0], "the rules for cells under %d headings"))
	}
}

func many(n int, one, others string) string {
	if n == 1 {
		return one
	}
	return fmt.Sprintf(others, n)
}

// longestTitle and longestPrompt are how many characters a spreadsheet program shows beside a cell
// (Microsoft's documentation of data validation).
const (
	longestTitle  = 32
	longestPrompt = 255
)

// pick gives the list of a column, nil for none.
func (s *planned) pick(c *table.Column, of column) *patch.Pick {
	p := &patch.Pick{At: pickRows(s.table, c.At), Title: cut(c.Name, longestTitle), Prompt: cut(of.about, longestPrompt)}
	switch {
	case of.fixed != nil:
		p.From = inline(of.fixed)
		p.Doubt = cut("This column takes "+word.List(of.fixed, "or")+". Anything else is told as an error.", longestPrompt)
	case of.offer != nil:
		p.From = s.from(of)
	}
	if p.From == "" {
		return nil
	}
	return p
}

func cut(text string, most int) string {
	if r := []rune(text); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return text
}
