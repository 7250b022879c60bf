package report

import (
	"slices"
	"strings"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// notesOf gives what is printed with a case, each once: cautions first, the gravest of
// them before the others.
func notesOf(c *decide.Case) []model.Note {
	notes := slices.Clone(c.Notes)
	for _, a := range c.Alternatives {
		for _, i := range a {
			i.Part.Within(func(part *model.Part) {
				for _, n := range part.Cautions {
					if !slices.Contains(notes, n) {
						notes = append(notes, n)
					}
				}
			})
		}
	}
	slices.SortStableFunc(notes, func(a, b model.Note) int { return gravity(a) - gravity(b) })
	return notes
}

// gravity orders notes; plain text comes last.
func gravity(n model.Note) int {
	if n.Caution == nil {
		return len(model.Levels())
	}
	if i := slices.Index(model.Levels(), n.Caution.Level); i >= 0 {
		return i
	}
	return len(model.Levels()) - 1
}

// levelOf names how grave a note is: "note" for plain text.
func levelOf(n model.Note) string { return model.Levels()[min(gravity(n), len(model.Levels())-1)] }

// noteText is what a note says.
func noteText(n model.Note) string {
	if n.Caution == nil {
		return n.Text
	}
	return n.Caution.Text
}

// note prints a text, and where a caution was printed before at another position, only
// where.
func (p *pickPage) note(pos *model.Position, n model.Note) {
	if n.Caution == nil {
		p.aside("note", n.Text)
		return
	}
	words := n.Caution.Text
	if first, said := p.said[words]; said && first != pos.Name {
		words = "as at " + first + ": " + n.Caution.Key
	} else {
		p.said[words] = pos.Name
	}
	p.aside(levelOf(n), words)
}

func (p *page) care(c pick.Care) { p.aside("care", Care(c)) }

// against tells what a check holds against the parts: its sentence only where parts may
// be named.
func (p *page) against(f *finding.Finding, settled bool) {
	p.aside(f.Severity.String(), Against(f, settled))
}

// cellsOf names all cells of a finding, a sheet once in a row.
func cellsOf(f *finding.Finding) string {
	var words []string
	var last *cell.Sheet
	for _, c := range f.Cells {
		if c.Sheet == last && c.Pos != (cell.Pos{}) {
			words = append(words, c.Pos.String())
		} else if c.Sheet != nil {
			words = append(words, c.Place.String())
		}
		last = c.Sheet
	}
	return strings.Join(words, ", ")
}
