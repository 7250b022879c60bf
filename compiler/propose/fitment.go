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

// tellTraits remarks on columns that are taken for traits by what stands in them alone.
func (r *reading) tellTraits() {
	for _, c := range r.all {
		if c.role != Trait || c.sure != Unsure {
			continue
		}
		var said []string
		for _, v := range c.Values[:min(len(c.Values), 4)] {
			said = append(said, trimmed(v.Text))
		}
		r.remark(places(c.Values), strings.Join(said, ", "), fmt.Sprintf("the column %s is taken for a trait, which tells vehicles apart, since few different texts stand in it", word.Quote(c.whole())),
			fmt.Sprintf("if it says something of the parts or of nothing that fits, a row of Layouts: skip, %s, in place of the one with is, and no row of Traits for it", r.where(c)))
	}
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

// splitParts writes how several parts of a cell are parted. Whether they are a choice, go together, or
// are a left and a right one stands nowhere, so it is remarked.
func (r *reading) splitParts(where string, c *column) {
	signs := map[string][]shape.Value{}
	for _, v := range c.Values {
		if sign, parts := shape.Separate(v.Text); len(parts) > 1 {
			signs[sign] = append(signs[sign], v)
		}
	}
	for _, sign := range []string{"", ";", "/", ",", "&", "+", "or", "and"} {
		values := signs[sign]
		if len(values) == 0 {
			continue
		}
		as, means := "or", "one or the other, the first preferred"
		if sign == "&" || sign == "+" || sign == "and" {
			as, means = "+", "both together"
		}
		if c.role == PartNo && r.across == nil && r.place.where != "" && as == "or" && r.place.sure != Certain {
			means += ", at the place of the row"
		}
		spelled := word.Quote(sign)
		if sign == "" {
			spelled = "line break"
		}
		r.rule("split", where+" "+spelled, as, Unsure, counted(len(values), "cell holds", "cells hold")+" several part numbers")
		var cells []cell.Pos
		for _, v := range values {
			cells = append(cells, v.At)
		}
		r.remark(cells, trimmed(values[0].Text), fmt.Sprintf("read as %s; nothing on the sheet says so", means),
			`in the row split of Layouts: "or" for a choice, "+" for both together, "each" for a row for each; a left and a right one need two columns`)
	}
}

// sayDown writes which columns leave out what stands above.
func (r *reading) sayDown() {
	for _, c := range r.all {
		if !c.leaves() || c.role == Name && r.place.where != r.where(c) {
			continue
		}
		gaps, first := r.gaps(c)
		if gaps > 0 && !r.repeats(c) && (c.role == Years || c.role == Trait) {
			r.remark([]cell.Pos{first}, "(blank)", fmt.Sprintf("a blank under %s is read as any", word.Quote(c.whole())),
				fmt.Sprintf("if a blank there means what stands above, a row of Layouts: down, %s", r.where(c)))
		}
		if gaps > 0 && r.repeats(c) {
			r.rule("down", r.where(c), "", Unsure, counted(gaps, "cell is", "cells are")+" blank below filled ones")
			r.remark([]cell.Pos{first}, "(blank)", fmt.Sprintf("a blank under %s is read as what stands above", word.Quote(c.whole())),
				`if a blank there means "any", leave out the row "down" of Layouts`)
		}
	}
}

// gaps counts the blank cells of a column in rows of values, below the first filled one.
func (r *reading) gaps(c *column) (n int, first cell.Pos) {
	begun := false
	for row := range r.t.Each {
		if row.At(c.Col) != "" {
			begun = true
		} else if begun {
			if n++; n == 1 {
				first = cell.Pos{Row: row.Number, Col: c.Col}
			}
		}
	}
	return n, first
}

// repeats tells whether a column leaves out what stands above: it begins filled, is blank often, and
// never says the same twice in a row.
func (r *reading) repeats(c *column) bool {
	last, started, again := "", false, false
	for row := range r.t.Each {
		text := row.At(c.Col)
		if !started && text == "" {
			return false
		}
		started = true
		if text == "" && r.begins(row, c) {
			return false
		}
		if text != "" {
			again = again || text == last
			last = text
		}
	}
	return !again && c.Filled*10 <= r.t.Rows()*8 && (c.role == Platform || c.role == Place || c.Col <= r.leading())
}

// begins tells whether a row begins something new in a column before one: what that leaves out there
// is not as above.
func (r *reading) begins(row *shape.Row, c *column) bool {
	for _, o := range r.all {
		if o.Col < c.Col && o.leaves() && row.At(o.Col) != "" {
			return true
		}
	}
	return false
}

// leading is the last of the columns that stand before those of parts.
func (r *reading) leading() int32 {
	for _, c := range r.all {
		if c.role == PartNo || c.role == PlaceOf || c.role == Grid {
			return c.Col
		}
	}
	return 0
}

// century writes which century years of two digits are of.
func (r *reading) century() {
	short := func(texts []string) bool {
		for _, text := range texts {
			if _, years, ok := shape.TrailingYears(text); ok && shape.ShortYears(years) || shape.IsYears(text) && shape.ShortYears(text) {
				return true
			}
		}
		return false
	}
	texts := append([]string{}, r.vehicle.texts...)
	if c := the(r.all, Years); c != nil {
		texts = append(texts, r.columnSource(c, "Years").texts...)
	}
	if r.across != nil {
		for _, c := range r.across.columns {
			texts = append(texts, c.Heads...)
		}
	}
	if short(texts) {
		r.rule("say", "Years", "century = 1950", Likely, "years are written with two digits: 50 to 99 are read as 1950 to 1999")
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
