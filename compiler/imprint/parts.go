package imprint

import (
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// parts knows what counts for the parts of a catalogue.
type parts struct {
	*Sheets
	cat    *model.Catalogue
	index  map[*model.Part]int32
	own    []Digest // what rows of Parts and Kits say of it
	known  map[*model.Fits]reading
	writer writer
}

// reading is what a fitment cell is read as, and all parts that it is about.
type reading struct {
	said  Digest
	parts []int32
}

func (s *Sheets) newParts(cat *model.Catalogue) *parts {
	p := &parts{Sheets: s, cat: cat, index: map[*model.Part]int32{}, own: make([]Digest, len(cat.Parts)), known: map[*model.Fits]reading{}}
	for i, part := range cat.Parts {
		p.index[part] = int32(i)
		p.own[i] = p.part(part)
	}
	return p
}

// part is what stands in the rows of a part, and what is calculated from that.
func (p *parts) part(part *model.Part) Digest {
	w := &p.writer
	w.line = w.line[:0]
	w.text(part.Number)
	w.yes(part.Listed, part.Known)
	p.row(part.At)
	for _, c := range part.Contents {
		w.text(c.Part.Number)
		p.row(c.At)
	}
	for _, r := range part.Readings {
		w.number(r.Figure.Index)
		w.text(r.Quantity.String())
	}
	for _, x := range part.Properties {
		w.yes(x.Refused, x.Quantity.Known())
	}
	return w.sum()
}

// row lets a row of Parts or Kits count for a part. Where it stands counts too: findings name
// its cells.
func (p *parts) row(at cell.Place) {
	r := p.find(at, at.Pos.Row)
	if r == nil || p.of[at.Sheet].kind != schema.Parts && p.of[at.Sheet].kind != schema.Kits {
		return
	}
	r.used = true
	p.writer.line = append(p.writer.line, r.said[:]...)
	p.writer.text(at.Sheet.File)
	p.writer.text(at.Sheet.Name)
	p.writer.number(int(r.number))
}

func (p *parts) read(f *model.Fits) reading {
	if r, ok := p.known[f]; ok {
		return r
	}
	w := &p.writer
	w.line = w.line[:0]
	w.number(int(f.Outcome))
	w.text(f.Text)
	if f.With != nil {
		w.number(f.With.Index)
	}
	met := map[*model.Part]bool{}
	var found []int32
	for _, a := range f.Alternatives {
		w.number(-1)
		for _, i := range a {
			w.text(i.Part.Number)
			w.number(i.Quantity)
			w.yes(i.Part.Known, i.Part.Misread)
			found = p.walk(i.Part, met, found)
		}
	}
	r := reading{w.sum(), found}
	p.known[f] = r
	return r
}

func (p *parts) closure(part *model.Part) reading {
	return p.read(&model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{{{Part: part}}}})
}

// walk gathers a part, what it holds, and what replaces any of that.
func (p *parts) walk(part *model.Part, met map[*model.Part]bool, found []int32) []int32 {
	todo := []*model.Part{part}
	for len(todo) > 0 {
		part := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if met[part] {
			continue
		}
		met[part] = true
		if i, ok := p.index[part]; ok {
			found = append(found, i)
		}
		for _, c := range part.Contents {
			todo = append(todo, c.Part)
		}
		if part.ReplacedBy != nil {
			for _, a := range part.ReplacedBy.Alternatives {
				for _, i := range a {
					todo = append(todo, i.Part)
				}
			}
		}
	}
	return found
}
