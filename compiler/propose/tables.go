package propose

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/schema"
	"ferrule/schema/word"
)

// tables gives the drafted sheets that have rows.
func (d *drafts) tables(b *builder) []Table {
	var out []Table
	for _, t := range []Table{d.platformsTable(b), d.traitsTable(), d.positionsTable(b), d.vehiclesTable(b), d.partsTable(b)} {
		if len(t.Rows) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// platformsTable drafts rows of Platforms, and remarks on years that nobody told and on names that are nearly declared.
func (d *drafts) platformsTable(b *builder) Table {
	t := Table{schema.Platforms, []string{"Platform", "Years", "Maker"}, nil}
	for _, p := range d.platforms {
		if b.Is(AsPlatform, p.name) {
			continue
		}
		years := unionYears(p.years)
		if years == "" {
			years = noYears
			b.ofDrafts(p.name, "no years are told of it; "+noYears+" stands in its draft to have a year at all",
				"its first and last model year under Years of Platforms, before the draft is used")
		} else if openEnded(p.years) {
			b.ofDrafts(p.name, "the sheet names no last (or first) year for it; its draft ends with the years that are named",
				"its first and last model year under Years of Platforms, before the draft is used")
		}
		if near := word.Nearest(p.name, b.list(AsPlatform)); near != "" {
			b.ofDrafts(p.name, "the catalogue has a platform of nearly this name, "+near,
				fmt.Sprintf("if it is the same: a row of Layouts say, Platform, %q, and no row of Platforms for it", p.name+" = "+near))
		}
		t.Rows = append(t.Rows, []string{p.name, years, p.maker})
	}
	return t
}

// ofDrafts adds a remark on something that is drafted; one that says the same of others is about all of
// them.
func (b *builder) ofDrafts(name, means, write string) {
	for i := range b.out.Remarks {
		if o := &b.out.Remarks[i]; o.Means == means && o.Write == write {
			o.Says += ", " + name
			o.N++
			return
		}
	}
	b.out.Remarks = append(b.out.Remarks, Remark{Says: name, Means: means, Write: write, N: 1})
}

// noYears stands where nothing says when a platform was built.
const noYears = "2000"

// traitsTable drafts rows of Traits, one for each value.
func (d *drafts) traitsTable() Table {
	t := Table{schema.Traits, []string{"Trait", "Value", "Kind", "Question"}, nil}
	for _, one := range d.traits {
		for i, v := range one.values {
			row := []string{one.name, v, "", ""}
			if i == 0 {
				row[2], row[3] = one.kind, one.question
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// positionsTable drafts rows of Positions, with the platforms where they differ in Quantity.
func (d *drafts) positionsTable(b *builder) Table {
	t := Table{schema.Positions, []string{"Position", "Quantity", "Coverage", "Platform"}, nil}
	for _, p := range d.positions {
		if b.Is(AsPosition, p.name) {
			continue
		}
		for _, q := range p.quantities() {
			t.Rows = append(t.Rows, []string{p.name, q[0], "wanted", q[1]})
		}
	}
	return t
}

// quantities gives the rows that a position needs: one where all platforms take as many, and else one
// for each quantity, with the platforms that take it.
func (p *position) quantities() [][2]string {
	var out [][2]string
	for _, on := range p.order {
		q := p.quantity[word.Fold(on)]
		i := slices.IndexFunc(out, func(o [2]string) bool { return o[0] == q })
		if i < 0 {
			out = append(out, [2]string{q, on})
		} else {
			out[i][1] += ", " + on
		}
	}
	switch len(out) {
	case 0:
		return [][2]string{{"", ""}}
	case 1:
		return [][2]string{{out[0][0], ""}}
	}
	return out
}

// vehiclesTable drafts a row of Vehicles for each platform; none where a sheet is read as Vehicles.
func (d *drafts) vehiclesTable(b *builder) Table {
	t := Table{Kind: schema.Vehicles, Columns: []string{"Platform", "Years"}}
	if d.listed {
		return t // the sheet itself says which vehicles there are
	}
	for _, p := range d.platforms {
		for _, h := range p.has {
			if !slices.Contains(t.Columns, h.trait) {
				t.Columns = append(t.Columns, h.trait)
			}
		}
	}
	for _, p := range d.platforms {
		if b.Is(AsPlatform, p.name) {
			continue
		}
		row := make([]string, len(t.Columns))
		row[0], row[1] = p.name, "any"
		for i, column := range t.Columns[2:] {
			row[i+2] = p.says(column)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// says gives what Vehicles says of a trait of the platform.
func (p *platform) says(trait string) string {
	for _, h := range p.has {
		if word.Fold(h.trait) == word.Fold(trait) {
			if h.any || len(h.values) == 0 {
				return "any"
			}
			return strings.Join(h.values, ", ")
		}
	}
	return "n/a"
}

// partsTable drafts rows of Parts, but for parts that a sheet is read for.
func (d *drafts) partsTable(b *builder) Table {
	t := Table{schema.Parts, []string{"Part", "Name", "Family"}, nil}
	for _, p := range d.parts {
		if !b.Is(AsPart, p.number) && !b.parts.read[word.Fold(p.number)] {
			t.Rows = append(t.Rows, []string{p.number, p.name, p.family})
		}
	}
	return t
}
