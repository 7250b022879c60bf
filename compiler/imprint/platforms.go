package imprint

import (
	"encoding/binary"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// Key is equal for two platforms of which the same is said.
type Key struct {
	Said Digest
	// Placed is where the rows stand that are about certain platforms, this one among them.
	// Where only that differs, the same stands elsewhere.
	Placed []Placed
}

// Placed is where a row stands.
type Placed struct {
	Sheet *cell.Sheet
	Row   int32
}

// attribution shares the rows of a catalogue out among its platforms.
type attribution struct {
	*Sheets
	cat       *model.Catalogue
	platforms []*sink
	all       *sink
	parts     *parts
	offers    [][]bool // by platform and part: offered there
	offersAll []bool
}

// Platforms gives the key of each platform of the catalogue that was made of the sheets.
// together says that what was set aside may be about any part.
func (s *Sheets) Platforms(cat *model.Catalogue, together bool) []Key {
	a := &attribution{Sheets: s, cat: cat, all: &sink{}, parts: s.newParts(cat)}
	a.offersAll = make([]bool, len(cat.Parts))
	for range cat.Platforms {
		a.platforms, a.offers = append(a.platforms, &sink{}), append(a.offers, make([]bool, len(cat.Parts)))
	}
	for _, v := range cat.Vehicles {
		a.take(&v.When, s.find(v.At, v.At.Pos.Row))
	}
	for _, f := range cat.Fitments {
		a.fitment(f)
	}
	for _, r := range cat.FactRows {
		a.take(&r.When, s.find(r.At, r.At.Pos.Row))
	}
	a.relations()
	if together {
		for i := range a.offersAll {
			a.offersAll[i] = true
		}
	}
	return a.keys()
}

// take lets a row count for the platforms that it is about, even if it was set aside: then what
// it might have said is about them. One that names none is left to count for all.
func (a *attribution) take(w *model.When, r *row) {
	on := w.Platforms
	if r == nil || len(on) == 0 {
		return
	}
	r.used = true
	for _, p := range on {
		to := a.platforms[p.Index]
		to.row(r)
		to.condition(w)
	}
}

// condition writes what a condition is read as.
func (s *sink) condition(w *model.When) {
	s.yes(w.SetAside, w.Years != nil)
	if y := w.Years; y != nil {
		s.yes(y.Not)
		s.number(len(y.Spans))
		for _, span := range y.Spans {
			s.number(span.From, span.To)
		}
	}
	s.number(len(w.Traits))
	for _, t := range w.Traits {
		s.number(t.Trait.Index, len(t.Values))
		for _, word := range t.Values {
			s.line = binary.LittleEndian.AppendUint64(s.line, word)
		}
		s.yes(t.Line != nil)
		if l := t.Line; l != nil {
			s.yes(l.Not)
			s.number(len(l.Ranges))
			for _, r := range l.Ranges {
				s.text(r.Letters)
				s.number(int(r.From), int(r.To))
			}
		}
	}
}

func (a *attribution) fitment(f *model.Fitment) {
	a.take(&f.When, a.find(f.At, f.Row))
	on := f.When.Platforms
	for _, c := range f.Cells {
		read := a.parts.read(c.Fits)
		for _, p := range on {
			a.platforms[p.Index].digest(&read.said)
			mark(a.offers[p.Index], read.parts)
		}
		if len(on) == 0 {
			a.all.digest(&read.said)
			mark(a.offersAll, read.parts)
		}
	}
}

func mark(in []bool, parts []int32) {
	for _, p := range parts {
		in[p] = true
	}
}

// relations lets what the sheets of relations name count for all platforms: there are few, and
// each is about whatever meets it.
func (a *attribution) relations() {
	name := func(p *model.Part) {
		if p != nil {
			read := a.parts.closure(p)
			mark(a.offersAll, read.parts)
			a.all.digest(&read.said)
		}
	}
	for _, r := range a.cat.Rules {
		name(r.Part)
		name(r.With)
	}
	for _, r := range a.cat.Acceptances {
		name(r.Part)
	}
	for _, f := range a.cat.Figures {
		a.measured(f.Name, f.Unit, f.Dimension)
	}
	for _, f := range a.cat.Facts {
		a.measured(f.Name, f.Unit, f.Dimension)
	}
}

// measured writes what a column measures, which its cells may tell.
func (a *attribution) measured(name string, unit measure.Unit, dim measure.Dimension) {
	a.all.text(name)
	a.all.number(int(unit), int(dim.Length), int(dim.Mass), int(dim.Time), int(dim.Angle), int(dim.Temperature))
}

func (a *attribution) keys() []Key {
	a.rest(a.all)
	a.offered(a.all, a.offersAll)
	all := a.all.sum()
	out := make([]Key, len(a.platforms))
	for i, p := range a.platforms {
		p.digest(&all)
		p.number(i)
		p.yes(a.cat.Platforms[i].Partial)
		a.offered(p, a.offers[i])
		out[i] = Key{p.sum(), p.placed}
	}
	return out
}

func (a *attribution) offered(to *sink, parts []bool) {
	for i, offered := range parts {
		if offered {
			to.digest(&a.parts.own[i])
		}
	}
}
