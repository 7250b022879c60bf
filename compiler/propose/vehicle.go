package propose

import (
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema"
	"ferrule/schema/word"
)

// vehiclesInNames finds sheets whose names are those of vehicles: names of the catalogue, names with
// years behind them, and those of several sheets with the same headings.
func (b *builder) vehiclesInNames() {
	alike := map[string]int{}
	for _, p := range b.pages {
		alike[p.headings()]++
	}
	for _, p := range b.pages {
		name, _, years := shape.TrailingYears(p.Name)
		p.vehicle = b.Is(AsPlatform, p.Name) || b.Is(AsPlatform, name) || years || alike[p.headings()] > 1 && p.headings() != ""
	}
}

// headings tells sheets of one shape: the headings of the first table, folded.
func (p *page) headings() string {
	if len(p.tables) == 0 {
		return ""
	}
	var out []string
	for i := range p.tables[0].Columns {
		out = append(out, word.Fold(p.tables[0].Columns[i].Head()))
	}
	return strings.Join(out, "\x00")
}

// source is where a table says something of all its rows, or of each.
type source struct {
	where string // as Layouts says it; "" for none
	as    string // Platform, or Platform, Years
	sure  Sure
	why   string
	texts []string // what it says
	of    func(r *shape.Row) string
}

// vehicleOf finds what names the vehicle of a row, beside the headings of a grid.
func (r *reading) vehicleOf() (source, bool) {
	if c := the(r.all, Platform); c != nil {
		return r.columnSource(c, "Platform"), true
	}
	if r.across != nil && r.across.sort == Platform {
		return source{}, false
	}
	if s, ok := r.inSections(); ok {
		return s, true
	}
	for _, l := range r.t.Titles {
		if name, _, years := shape.TrailingYears(l.Text); r.b.Is(AsPlatform, l.Text) || years && r.b.Is(AsPlatform, name) {
			return r.named("cell "+l.Pos.String(), l.Text, Likely, "a title is the name of a platform"), true
		}
	}
	if l, ok := r.called(Platform); ok {
		return r.named("cell "+l.Pos.String(), l.Text, Likely, "the text beside it says so"), true
	}
	if r.p.vehicle {
		return r.named("sheet name", r.p.Name, Likely, "the sheet's name is that of a vehicle"), true
	}
	return source{}, false
}

// named is a source that says one thing of all rows.
func (r *reading) named(where, text string, sure Sure, why string) source {
	s := source{where: where, as: "Platform", sure: sure, why: why, texts: []string{text}, of: func(*shape.Row) string { return text }}
	if _, _, years := shape.TrailingYears(text); years && the(r.all, Years) == nil && !r.b.Is(AsPlatform, text) {
		s.as = "Platform, Years"
	}
	return s
}

// columnSource is a column that says it of each row.
func (r *reading) columnSource(c *column, as string) source {
	s := source{where: r.where(c), as: as, sure: c.sure, why: c.why, of: func(row *shape.Row) string { return r.at(row, c) }}
	for _, v := range c.Values {
		s.texts = append(s.texts, v.Text)
	}
	if as == "Platform" && trailing(c) >= 0.5 && the(r.all, Years) == nil && !r.b.mostlyExact(c) {
		s.as = "Platform, Years"
	}
	return s
}

// mostlyExact tells names that the catalogue has with the years that stand in them.
func (n *Names) mostlyExact(c *column) bool {
	hits := 0
	for _, v := range c.Values {
		if n.Is(AsPlatform, v.Text) {
			hits++
		}
	}
	return hits*2 > len(c.Values)
}

// inSections takes sections for vehicles where most are names of platforms or have years behind them.
func (r *reading) inSections() (source, bool) {
	hits, years := 0, 0
	s := source{where: "section", as: "Platform", sure: Likely, why: "the rows with one filled cell are names of vehicles", of: r.sectionOf()}
	for _, l := range r.t.Sections {
		name, _, behind := shape.TrailingYears(l.Text)
		if r.b.Is(AsPlatform, l.Text) || r.b.Is(AsPlatform, name) || behind {
			hits++
		}
		if behind {
			years++
		}
		s.texts = append(s.texts, l.Text)
	}
	if years*2 > len(s.texts) {
		s.as = "Platform, Years"
	}
	return s, hits > 0 && hits*3 >= len(s.texts)*2
}

// sectionOf gives the section that each row stands in; "" above the first.
func (r *reading) sectionOf() func(row *shape.Row) string {
	of := map[int32]string{}
	i := 0
	for row := range r.t.Each {
		for i < len(r.t.Sections) && r.t.Sections[i].Pos.Row < row.Number {
			i++
		}
		if i > 0 {
			of[row.Number] = r.t.Sections[i-1].Text
		}
	}
	return func(row *shape.Row) string { return of[row.Number] }
}

// vehicles reads a table that names vehicles and no parts.
func (r *reading) vehicles() {
	r.table(schema.Vehicles, Likely, "it names vehicles and no parts")
	r.sayVehicle()
	for _, c := range r.all {
		switch c.role {
		case Trait:
			r.rule("is", r.where(c), c.name, c.sure, c.why)
			r.b.drafts.trait(r.b, c)
		case Years:
			r.rule("is", r.where(c), "Years", c.sure, c.why)
		case Note:
			r.rule("is", r.where(c), "Note", c.sure, c.why)
			r.remark(places(c.Values), "", "read as notes for you only", "a column of its own, or a row of Breaks, where one says which vehicles there are")
		}
	}
	r.tellTraits()
	r.sayDown()
	r.century()
	r.draftVehicles()
	r.b.drafts.listed = true
}
