package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

var partOutOfPlace = &Check{
	Kind: finding.Kind{Code: finding.PartOutOfPlace, Severity: "error where Positions says what belongs there, else warning",
		Summary: "a part stands at a position where its family does not belong",
		Doc:     "Family in Positions lists what belongs at a position. A part of none of these families is an error; a kit belongs where its own family or one of what it holds does. Where nothing is listed, a family is told that has its place at other positions while this one's other cells hold another. Two columns that hold each other's parts have probably changed headings, and a column whose cells belong to several other positions has probably been sorted without the others: each is told once.",
		Before:  "Positions!B2  Damper   (the position Front damper)\nFitment!D4  Front damper  FR-38   (a flow restrictor)",
		After:   "Fitment!D4  Front damper  HD-20"},
	Requires: []Ground{Misfits},
	Position: func(p *Position) {
		if len(p.on.run.misfits) == 0 {
			return
		}
		regions := map[*misplaced]space.Region{}
		var order []*misplaced
		for i := range p.Levels {
			level := &p.Levels[i]
			for _, c := range level.Cells {
				m := p.on.run.misfits[c.FitCell]
				if m == nil {
					continue
				}
				if _, met := regions[m]; !met {
					order = append(order, m)
				}
				regions[m] = p.Union(regions[m], p.Decides(level, c))
			}
		}
		for _, m := range order {
			if regions[m] != space.Empty && !p.on.misfits[m] && !(m.swapped != nil && p.on.misfits[m.swapped]) {
				p.on.misfits[m] = true
				if cause := p.on.run.Owed.Holding(m.part); cause != nil && m.swapped == nil && !m.several {
					p.on.owe(cause, finding.PartOutOfPlace)
					continue // a kit belongs where what it holds does
				}
				p.Report(m.finding(), regions[m])
			}
		}
	},
}

func (m *misplaced) finding() finding.Finding {
	f := finding.Finding{Code: finding.PartOutOfPlace, Severity: finding.Warning, Cells: m.at()}
	if m.declared {
		f.Severity = finding.Error
	}
	switch {
	case m.swapped != nil:
		f.Message = fmt.Sprintf("parts of the family %[2]s stand at %[1]s, and parts of the family %[4]s at %[3]s: each belongs at the other", m.position.Name, m.family, m.swapped.position.Name, m.swapped.family)
		f.Fix = "look whether the headings of the two columns are swapped"
	case m.several:
		f.Message = fmt.Sprintf("parts stand at several positions where they do not belong, as %s at %s", m.part.Number, m.position.Name)
		f.Fix = "look whether the column was sorted or moved without the others, and copy it again from where it was right"
	case m.whole:
		f.Message = fmt.Sprintf("all parts at %s in this sheet are of the family %s, and %s", m.position.Name, m.familyOr(), m.belongs())
		f.Fix = m.fix()
	default:
		f.Part = m.part.Number
		f.Message = fmt.Sprintf("%s at %s is of %s, and %s", m.part.Number, m.position.Name, m.of(), m.belongs())
		f.Fix = m.fix()
	}
	return f
}

func (m *misplaced) familyOr() string {
	if m.family == "" {
		return "none"
	}
	return m.family
}

func (m *misplaced) of() string {
	if m.family == "" {
		return "no family"
	}
	return "the family " + m.family
}

func (m *misplaced) belongs() string {
	if m.declared {
		return "what belongs there is " + m.usual
	}
	return "all other parts there are of the family " + m.usual
}

func (m *misplaced) fix() string {
	switch {
	case m.family == "":
		return "write the part's Family in Parts"
	case m.declared:
		return fmt.Sprintf("write a part that belongs there, or add %s to Family of %s in Positions", m.family, m.position.Name)
	}
	return fmt.Sprintf("write the part that is meant, or list what belongs at %s under Family in Positions", m.position.Name)
}

// at gives the cells, first those of the position itself, each once.
func (m *misplaced) at() []finding.Cell {
	var out []finding.Cell
	all := m.cells
	if m.swapped != nil {
		all = slices.Concat(all, m.swapped.cells)
	}
	seen := map[cell.Place]bool{}
	for _, fc := range all {
		if !seen[fc.At] {
			seen[fc.At] = true
			out = append(out, finding.Cell{Place: fc.At})
		}
	}
	if m.declared {
		out = append(out, finding.Cell{Place: m.position.FamilyAt})
	}
	return out
}
