package finding

import "ferrule/compiler/model"

// Mover takes packed regions into a catalogue that declares the same traits.
type Mover struct {
	to    *model.Catalogue
	known map[*terms]*terms
}

// NewMover gives what takes regions into a catalogue.
func NewMover(to *model.Catalogue) *Mover { return &Mover{to, map[*terms]*terms{}} }

// Move gives the region in the catalogue; nil stays nil.
func (m *Mover) Move(p *Packed) *Packed {
	if p == nil {
		return nil
	}
	out := *p
	if out.terms = m.known[p.terms]; out.terms == nil && p.terms != nil {
		out.terms = &terms{lines: p.terms.lines}
		for _, t := range p.terms.traits {
			out.terms.traits = append(out.terms.traits, t.In(m.to))
		}
		m.known[p.terms] = out.terms
	}
	return &out
}
