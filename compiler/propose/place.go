package propose

import (
	"fmt"
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// placeOf finds what names the place at which the part of a row is fitted: what keeps the parts of one
// vehicle apart. Several parts at one place would be in conflict.
func (r *reading) placeOf() source {
	candidates := r.places()
	if len(candidates) == 0 {
		return source{}
	}
	best, least := 0, -1
	for i, c := range candidates {
		if n := len(r.collisions(c.of)); least < 0 || n < least {
			best, least = i, n
		}
	}
	return candidates[best]
}

// places lists what may name the place, that which says so most plainly first.
func (r *reading) places() []source {
	var out []source
	if c := the(r.all, Place); c != nil {
		out = append(out, r.columnSource(c, "Position"))
	}
	if l, ok := r.called(Place); ok {
		out = append(out, source{where: "cell " + l.Pos.String(), sure: Likely, why: "the text beside it says so", texts: []string{l.Text},
			of: func(*shape.Row) string { return l.Text }})
	}
	if name, ok := r.b.Find(AsPosition, r.p.Name); ok {
		out = append(out, source{where: "sheet name", sure: Certain, why: "the sheet has the name of a position", texts: []string{name},
			of: func(*shape.Row) string { return name }})
	}
	if c := the(r.all, Name); c != nil {
		s := r.columnSource(c, "Position")
		s.sure, s.why = Unsure, "no column names the place; what the part is called keeps the parts of a vehicle apart"
		out = append(out, s)
	}
	if len(r.t.Sections) > 0 && r.vehicle.where != "section" {
		s := source{where: "section", sure: Likely, why: "the rows with one filled cell name the place", of: r.sectionOf()}
		for _, l := range r.t.Sections {
			s.texts = append(s.texts, l.Text)
		}
		out = append(out, s)
		if c := the(r.all, Name); c != nil {
			out = append(out, r.bySection(c, s))
		}
	}
	if c := the(r.all, Family); c != nil {
		s := r.columnSource(c, "Position")
		s.sure, s.why = Unsure, "no column names the place; the family keeps the parts of a vehicle apart"
		out = append(out, s)
	}
	return out
}

// called gives what stands above the table beside a text that says what it is: `Place: | Front damper`.
func (r *reading) called(role Role) (shape.Line, bool) {
	for i := 1; i < len(r.t.Titles); i++ {
		name, l := r.t.Titles[i-1], r.t.Titles[i]
		if name.Pos.Row == l.Pos.Row && strings.HasSuffix(name.Text, ":") && roleOfHead(name.Text) == role {
			return l, true
		}
	}
	return shape.Line{}, false
}

// bySection joins a section and the name under it: Front axle, Damper is Front axle damper.
func (r *reading) bySection(c *column, section source) source {
	return source{where: "both", sure: Unsure, why: "the section and the name together keep the parts of a vehicle apart",
		of: func(row *shape.Row) string {
			if section.of(row) == "" {
				return placeName([]string{row.At(c.Col)})
			}
			return placeName([]string{section.of(row), row.At(c.Col)})
		}}
}

// clash is two rows that put different parts at one place of one vehicle.
type clash struct {
	place  string
	rows   [2]int32
	column int32 // of a grid
}

// collisions finds where a source of places would put several parts at one place of one vehicle.
func (r *reading) collisions(of func(*shape.Row) string) []clash {
	type spot struct{ place, vehicle string }
	first := map[spot]*shape.Row{}
	var out []clash
	part := the(r.all, PartNo)
	for row := range r.t.Each {
		for _, v := range r.vehiclesOf(row) {
			s := spot{word.Fold(of(row)), v.name}
			before, ok := first[s]
			if !ok {
				first[s] = row
			} else if part != nil && before.At(part.Col) != row.At(part.Col) {
				out = append(out, clash{of(row), [2]int32{before.Number, row.Number}, v.col})
			}
		}
	}
	return out
}

// vehicleAt is a vehicle that a row is about.
type vehicleAt struct {
	name string // the same for the same vehicle, within the table
	col  int32
}

// vehiclesOf gives the vehicles that a row is about: one, or those of the marks in its grid.
func (r *reading) vehiclesOf(row *shape.Row) []vehicleAt {
	base := ""
	for _, c := range r.all {
		switch c.role {
		case Platform, Years, Trait, Note:
			base += "\x00" + word.Fold(r.at(row, c))
		}
	}
	if r.vehicle.where == "section" {
		base += "\x00" + word.Fold(r.vehicle.of(row))
	}
	if r.across == nil {
		return []vehicleAt{{base, 0}}
	}
	var out []vehicleAt
	for _, c := range r.across.columns {
		if text := row.At(c.Col); text != "" && !r.nothingAt(text) {
			_, sign := shape.Sign(text)
			out = append(out, vehicleAt{base + "\x01" + word.Fold(c.whole()) + "\x02" + sign, c.Col})
		}
	}
	return out
}

// tellClashes remarks on parts that meet at one place of one vehicle.
func (r *reading) tellClashes(of func(*shape.Row) string) {
	clashes := r.collisions(of)
	part := the(r.all, PartNo)
	if len(clashes) == 0 || part == nil {
		return
	}
	var cells []cell.Pos
	for _, c := range clashes {
		col := c.column
		if col == 0 {
			col = part.Col
		}
		cells = append(cells, cell.Pos{Row: c.rows[1], Col: col})
	}
	one := clashes[0]
	r.remark(cells, fmt.Sprintf("rows %d and %d", one.rows[0], one.rows[1]),
		fmt.Sprintf("several parts would be fitted at %s of one vehicle, and nobody says whether they are a choice or go together", word.Quote(one.place)),
		fmt.Sprintf(`where one or the other is fitted, write a further row of Layouts: mark, %q, "or"; where both are, mark, %q, "+"; or let a column name places that differ`, r.firstMark(), r.firstMark()))
}

func (r *reading) firstMark() string {
	if len(r.marks) > 0 {
		return r.marks[0]
	}
	return "x"
}

// trimmed is a text in one line.
func trimmed(text string) string { return strings.Join(strings.Fields(text), " ") }
