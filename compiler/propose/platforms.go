package propose

import (
	"fmt"
	"strings"

	"ferrule/compiler/propose/shape"
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

// built adds years in which a platform was built, as the sheet writes them.
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
		p := r.headedPlatform(c)
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

// headedPlatform drafts the platform that the headings of a column name; nil where they name none.
func (r *reading) headedPlatform(c *column) (p *platform) {
	for level, role := range r.across.levels {
		if name, years := r.platformName(c.Heads[level]); role == Platform && name != "" {
			p = r.b.drafts.platform(name)
			p.built(years)
		}
	}
	return p
}
