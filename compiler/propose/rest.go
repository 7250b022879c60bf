package propose

import (
	"fmt"
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// platformName gives the platform of a text, without years behind it.
func (r *reading) platformName(text string) (name, years string) {
	text = trimmed(text)
	if known, ok := r.b.Find(AsPlatform, text); ok {
		return known, ""
	}
	if name, years, ok := shape.TrailingYears(text); ok {
		return trimmed(name), years
	}
	return text, ""
}

// platformOfHead gives the platform of a column of a grid; "" for none.
func (r *reading) platformOfHead(col int32) string {
	for _, c := range r.across.columns {
		if c.Col != col {
			continue
		}
		for level, role := range r.across.levels {
			if role == Platform {
				name, _ := r.platformName(c.Heads[level])
				return name
			}
		}
	}
	return ""
}

// platformsOf gives the platforms that a row is about.
func (r *reading) platformsOf(row *shape.Row) []string {
	var out []string
	if r.vehicle.of != nil {
		if name, _ := r.platformName(r.vehicle.of(row)); name != "" {
			out = append(out, name)
		}
		return out
	}
	if r.across != nil {
		for _, c := range r.across.columns {
			if name := r.platformOfHead(c.Col); row.At(c.Col) != "" && name != "" {
				out = append(out, name)
			}
		}
	}
	return out
}

// draftVehicles drafts the platforms of the table, with their years and what their vehicles have.
func (r *reading) draftVehicles() {
	years, maker := the(r.all, Years), the(r.all, Maker)
	for row := range r.t.Each {
		if r.vehicle.of == nil {
			break
		}
		name, behind := r.platformName(r.vehicle.of(row))
		if name == "" {
			continue
		}
		p := r.b.drafts.platform(name)
		p.built(behind)
		if years != nil {
			p.built(r.at(row, years))
		}
		if maker != nil && p.maker == "" {
			p.maker = trimmed(row.At(maker.Col))
		}
		r.has(p, row)
		r.quantity(p, row)
	}
	r.draftHeads()
}

func (p *platform) built(years string) {
	if years = trimmed(years); years != "" && (len(p.years) == 0 || p.years[len(p.years)-1] != years) {
		p.years = append(p.years, years)
	}
}

// has notes which values of traits the vehicles of a row have.
func (r *reading) has(p *platform, row *shape.Row) {
	for _, c := range r.all {
		if c.role != Trait {
			continue
		}
		h := p.having(c.name)
		text := r.at(row, c)
		if text == "" || strings.HasPrefix(word.Fold(text), "not ") || word.Fold(text) == "any" {
			h.any = true
		}
		for _, v := range listed(text) {
			h.add(v)
		}
	}
}

// quantity notes how many of a part the position of a row takes.
func (r *reading) quantity(p *platform, row *shape.Row) {
	c := the(r.all, Quantity)
	if c == nil || r.place.of == nil || row.At(c.Col) == "" {
		return
	}
	at := r.b.drafts.position(trimmed(r.place.of(row)))
	on := word.Fold(p.name)
	if before, ok := at.quantity[on]; ok && before != row.At(c.Col) {
		r.remark([]cell.Pos{{Row: row.Number, Col: c.Col}}, row.At(c.Col), fmt.Sprintf("another quantity than the %s of a row before, at the same place (%s) of the same platform", before, at.name),
			"rows of Positions that differ in Quantity, each with the conditions of its vehicles")
		return
	} else if !ok {
		at.order = append(at.order, p.name)
	}
	at.quantity[on] = row.At(c.Col)
}

// draftHeads drafts what the headings of a grid name.
func (r *reading) draftHeads() {
	if r.across == nil {
		return
	}
	for _, c := range r.across.columns {
		var p *platform
		for level, role := range r.across.levels {
			if name, years := r.platformName(c.Heads[level]); role == Platform && name != "" {
				p = r.b.drafts.platform(name)
				p.built(years)
			}
		}
		for level, role := range r.across.levels {
			switch {
			case role == Years && p != nil:
				p.built(c.Heads[level])
			case role == Years && r.vehicle.of != nil:
				for _, text := range r.vehicle.texts {
					name, _ := r.platformName(text)
					r.b.drafts.platform(name).built(c.Heads[level])
				}
			}
		}
		if r.across.sort == Place {
			r.b.drafts.position(placeName(c.Heads))
		}
		if years := the(r.all, Years); years != nil && p != nil {
			for _, v := range years.Values {
				p.built(v.Text)
			}
		}
	}
}

// rest writes what is left out on purpose, and remarks on what is not read.
func (r *reading) rest() {
	r.titles()
	for _, c := range r.all {
		if c.Filled == 0 {
			continue
		}
		switch c.role {
		case Running:
			r.skip(c, "a running number of rows says nothing of parts or vehicles")
		case Quantity:
			if r.place.of != nil {
				r.skip(c, "how many are fitted stands under Quantity of the drafted Positions")
			}
		case Maker:
			r.skip(c, "who makes a vehicle stands under Maker of the drafted Platforms")
		case Unclear, Property, Family, Name, Other, Source, Replaced, Kit, Place, Note:
			if !r.used(c) {
				r.unreadColumn(c)
			}
		}
	}
	r.sections()
}

// used tells whether some rule is about a column.
func (r *reading) used(c *column) bool {
	where := r.where(c)
	for _, rule := range r.rules {
		if rule.Where == where && (rule.Word == "is" || rule.Word == "skip") {
			return true
		}
	}
	return false
}

func (r *reading) unreadColumn(c *column) {
	says := trimmed(c.Values[0].Text)
	means := "no row of Layouts is proposed for the column " + word.Quote(c.whole()) + ", since nothing says what it is; its cells will be told as unclaimed"
	if openYears(c.Head()) {
		means = "years of which one column is the first and another the last are not proposed: " + means
	}
	r.remark(places(c.Values), says, means, fmt.Sprintf("a row of Layouts: is, %s, and the column that it holds (a trait where it tells vehicles apart); or skip, %s, where it says nothing of what fits", r.where(c), r.where(c)))
}

// titles leaves out what stands above and below the table.
func (r *reading) titles() {
	if n := len(r.t.Titles); n > 0 && !strings.HasPrefix(r.vehicle.where, "cell ") {
		first, last := r.t.Titles[0].Pos.Row, r.t.Titles[n-1].Pos.Row
		r.rule("skip", rowsFrom(first, last), "", Likely, "titles above the table: "+word.Quote(trimmed(r.t.Titles[0].Text)))
		for _, l := range r.t.Titles {
			if len(r.b.within(l.Text)) > 0 || restrictsTable(l.Text) {
				r.remark([]cell.Pos{l.Pos}, trimmed(l.Text), "a text above the table that may hold for all of it; it is left out", `a row of Layouts: is, "the value", and the trait, if the whole table is about these vehicles alone`)
			}
		}
	}
	for _, l := range r.t.Totals {
		r.rule("skip", "row "+word.Quote(trimmed(l.Text)), "", Likely, "a row that adds others up")
	}
	for _, l := range r.t.Repeats {
		r.rule("skip", rowsFrom(l.Pos.Row, l.Pos.Row), "", Likely, "the headings again")
	}
	r.foot()
}

// restrictsTable tells titles that may limit all rows of a table.
func restrictsTable(text string) bool {
	topic, not := topicOf(text)
	return not || topic != strings.TrimRight(trimmed(text), ".,;: ")
}

func rowsFrom(first, last int32) string { return fmt.Sprintf("rows %d-%d", first, last) }

// foot leaves out texts below the table that explain no sign of it.
func (r *reading) foot() {
	for _, l := range r.t.Foot {
		f := shape.Footnotes(l.Text)
		if sign, says, ok := shape.Numbered(l.Text); ok && len(f) == 0 {
			f = [][2]string{{sign, says}}
		}
		if len(f) > 0 && r.declares(f[0][0]) {
			continue
		}
		if len(f) > 0 && r.declaresPlain(f[0][0]) {
			r.rule("skip", rowsFrom(l.Pos.Row, l.Pos.Row), "", Likely, "it explains a sign, which a row mark says")
			continue
		}
		if len(f) > 0 {
			if cells := r.signed(f[0][0]); len(cells) > 0 {
				r.rule("skip", rowsFrom(l.Pos.Row, l.Pos.Row), "", Unsure, "a text below the table")
				r.remark(append([]cell.Pos{l.Pos}, cells...), trimmed(l.Text), "a sign behind what cells of a list say; no row of Layouts reads it, so these cells will be told as names that nobody knows",
					"what the text says into a column of its own, as a condition, and the cells without the sign")
				continue
			}
		}
		r.rule("skip", rowsFrom(l.Pos.Row, l.Pos.Row), "", Unsure, "a text below the table")
		r.remark([]cell.Pos{l.Pos}, trimmed(l.Text), "a text that no sign in the table leads to; it is left out", "a condition in the rows that it is about, where it limits what fits")
	}
}

// declaresPlain is declares whatever a sign is dressed in.
func (r *reading) declaresPlain(sign string) bool {
	for _, rule := range r.rules {
		if rule.Word == "mark" && shape.Plain(rule.Where) == shape.Plain(sign) {
			return true
		}
	}
	return false
}

// signed gives the cells outside of grids that a sign stands behind.
func (r *reading) signed(sign string) []cell.Pos {
	var out []cell.Pos
	for row := range r.t.Each {
		for _, c := range row.Cells {
			if _, behind := shape.Sign(c.Text); behind == sign {
				out = append(out, cell.Pos{Row: row.Number, Col: c.Col})
			}
		}
	}
	return out
}

// declares tells whether a mark or a sign is declared.
func (r *reading) declares(sign string) bool {
	for _, rule := range r.rules {
		if rule.Word == "mark" && word.Fold(rule.Where) == word.Fold(sign) {
			return true
		}
	}
	return false
}

// sections leaves out rows that say one thing for those below, where nothing is read from them.
func (r *reading) sections() {
	for _, rule := range r.rules {
		if rule.Word == "section" {
			return
		}
	}
	seen := map[string]bool{}
	for _, l := range r.t.Sections {
		if text := trimmed(l.Text); !seen[word.Fold(text)] {
			seen[word.Fold(text)] = true
			r.rule("skip", "row "+word.Quote(text), "", Unsure, "a heading between the rows; what it says is not needed to tell places apart")
		}
	}
	if len(r.t.Sections) > 0 && r.place.where != "both" {
		l := r.t.Sections[0]
		r.remark([]cell.Pos{l.Pos}, trimmed(l.Text), "headings between the rows are left out: the other columns tell places and vehicles apart without them",
			"a row of Layouts section with the column that they say for the rows below, in place of the rows skip, if they limit what fits")
	}
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
