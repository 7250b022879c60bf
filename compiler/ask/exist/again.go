package exist

import (
	"errors"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// again reads proposed rows as they would be read from sheets, and gives what exists then; nothing
// where a cell cannot be read. It runs inside Try.
func (l *Lister) again(p *decide.Platform, out *Proposal) space.Region {
	var boxes []space.Box
	for _, c := range out.Vehicles {
		w, err := l.vehiclesRow(p, c)
		if err != nil {
			return space.Empty
		}
		boxes = append(boxes, p.Bounds(w))
	}
	var rows []decide.Break
	for _, c := range out.Breaks {
		b, err := l.breaksRow(p, c)
		if err != nil {
			return space.Empty
		}
		rows = append(rows, b)
	}
	return p.Leave(p.UnionBoxes(boxes), rows)
}

// vehiclesRow reads a row of Vehicles, where a trait left blank does not apply.
func (l *Lister) vehiclesRow(p *decide.Platform, c Cells) (w *model.When, err error) {
	w = &model.When{Platforms: []*model.Platform{p.Model}}
	if w.Years, err = l.words.Years(c[yearsColumn]); err != nil {
		return nil, err
	}
	for _, t := range l.cat.Traits {
		set := p.Cat.Traits[t.Index].Is(p.Cat.Traits[t.Index].Absent())
		if text := c[t.Name]; text != "" {
			if set, err = l.words.ReadStated(t, text); err != nil {
				return nil, err
			}
		}
		w.Traits = append(w.Traits, set)
	}
	return w, nil
}

// breaksRow reads a row of Breaks.
func (l *Lister) breaksRow(p *decide.Platform, c Cells) (out decide.Break, err error) {
	w := &model.When{Platforms: []*model.Platform{p.Model}}
	if w.Years, err = l.words.Years(c[yearsColumn]); err != nil {
		return out, err
	}
	of := l.cat.Traits[slices.IndexFunc(l.cat.Traits, func(t *model.Trait) bool { return t.Name == c[traitColumn] })]
	for _, t := range l.cat.Traits {
		set, restricts, err := l.words.Values(t, c[t.Name])
		if err != nil {
			return out, err
		}
		if restricts {
			w.Traits = append(w.Traits, set)
		}
	}
	value, err := l.words.ReadStated(of, c[valueColumn])
	if err != nil {
		return out, err
	}
	if value.Values.Has(of.Absent()) {
		return out, errors.New("does not apply is nothing that is built")
	}
	at := of.Index + 1
	return decide.Break{Trait: at, Values: p.Bounds(&model.When{Traits: []model.TraitSet{value}}).At(at), Box: p.Bounds(w)}, nil
}
