package propose

import (
	"fmt"
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// fitment writes the rules of a table that says what fits which vehicles, and of what it says of parts
// besides.
func (r *reading) fitment() {
	wide := has(r.all, PlaceOf) || r.across != nil && r.across.sort == Place
	if !wide {
		r.place = r.placeOf()
	}
	if r.place.where == "both" {
		r.perSection()
		return
	}
	r.table(schema.Fitment, Likely, "it names parts and vehicles")
	r.said(wide)
	if !wide {
		r.tellPlace()
	}
	r.partsToo()
}

// said writes what each column and the grid say, below a row `table`.
func (r *reading) said(wide bool) {
	r.sayVehicle()
	if c := the(r.all, PartNo); c != nil {
		r.rule("is", r.where(c), "Fits", c.sure, c.why)
		r.splitParts(r.where(c), c)
	}
	for _, c := range r.all {
		switch c.role {
		case PlaceOf:
			r.rule("is", r.where(c), c.name, c.sure, c.why)
			r.b.drafts.position(c.name)
			r.splitParts(r.where(c), c)
		case Trait:
			r.rule("is", r.where(c), c.name, c.sure, c.why)
			r.b.drafts.trait(r.b, c)
		case Years:
			r.rule("is", r.where(c), "Years", c.sure, c.why)
		}
	}
	r.tellTraits()
	r.sayPlace(wide)
	r.sayGrid()
	r.sayDown()
	r.sayNotes()
	r.century()
	r.draftVehicles()
}

// sayVehicle writes what names the vehicle.
func (r *reading) sayVehicle() {
	switch s := r.vehicle; s.where {
	case "":
	case "section":
		r.rule("section", "", s.as, s.sure, s.why)
	default:
		r.rule("is", s.where, s.as, s.sure, s.why)
	}
}

// sayPlace writes what names the place.
func (r *reading) sayPlace(wide bool) {
	s := r.place
	switch {
	case wide:
		return
	case s.where == "":
		text := r.p.Name
		r.rule("is", word.Quote(text), "Position", Unsure, "nothing names the place, so the sheet's name stands for it")
		r.b.drafts.position(text)
		r.place = source{of: func(*shape.Row) string { return text }}
		return
	case s.where == "both":
		r.sayBoth()
		return
	case s.where == "section":
		r.rule("section", "", "Position", s.sure, s.why)
	default:
		r.rule("is", s.where, "Position", s.sure, s.why)
	}
	for _, text := range s.texts {
		r.b.drafts.position(trimmed(text))
	}
}

// tellPlace remarks on places that were guessed.
func (r *reading) tellPlace() {
	r.tellClashes(r.place.of)
	if r.place.sure == Unsure {
		r.remark([]cell.Pos{r.corner()}, "", "no column says at which place of the vehicle a part is fitted: "+r.place.why,
			`if another column or text names it, change the row of Layouts that gives "Position"`)
	}
}

// perSection reads each section as a table of its own, since a place is named by the section and the
// name together.
func (r *reading) perSection() {
	whole := r.t
	for i, l := range whole.Sections {
		first, last := l.Pos.Row+1, whole.Last
		if i == 0 {
			first = whole.HeadEnd + 1
		}
		if i+1 < len(whole.Sections) {
			last = whole.Sections[i+1].Pos.Row - 1
		}
		part := r.between(first, last)
		part.rule("table", fmt.Sprintf("%s, rows %d-%d", strings.Split(r.extent(), ", ")[0], first, last), schema.Title(schema.Fitment), Likely,
			"the section "+word.Quote(trimmed(l.Text))+" is read by itself")
		part.said(false)
		r.rules = append(r.rules, part.rules...)
	}
	r.tellPlace()
	r.partsToo()
}

// between gives a reading of some rows of the table, by what all of them are taken for.
func (r *reading) between(first, last int32) *reading {
	out := *r
	out.rules, out.all, out.t = nil, nil, r.t.Between(first, last)
	for i, c := range r.all {
		narrowed := *c
		narrowed.Column = &out.t.Columns[i]
		out.all = append(out.all, &narrowed)
	}
	return &out
}

// sayBoth writes what a section adds to the names under it.
func (r *reading) sayBoth() {
	c := the(r.all, Name)
	r.rule("is", r.where(c), "Position", Unsure, r.place.why)
	seen := map[string]bool{}
	for row := range r.t.Each {
		name := trimmed(row.At(c.Col))
		if name == "" || seen[word.Fold(name)] {
			continue
		}
		seen[word.Fold(name)] = true
		place := r.place.of(row)
		r.b.drafts.position(place)
		if word.Fold(place) != word.Fold(name) {
			r.rule("say", r.where(c), name+" = "+place, Unsure, "what the section adds to the name")
		}
	}
}
