package propose

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema"
	"ferrule/schema/word"
)

// drafts are rows of the sheets that declare names, made of what the sheets say. What the catalogue
// has already is left out.
type drafts struct {
	platforms []*platform
	traits    []*trait
	positions []*position
	parts     []*part
	listed    bool           // a sheet is read as Vehicles
	index     map[string]int // by sort and folded name
}

type platform struct {
	name, maker string
	years       []string
	has         []*had // what its vehicles have
}

// had is a trait with the values that vehicles of a platform have; all is any.
type had struct {
	trait  string
	values []string
	any    bool
}

type trait struct {
	name, kind, question string
	values               []string
}

type position struct {
	name     string
	quantity map[string]string // by folded platform
	order    []string          // platforms as they are named
}

type part struct{ number, name, family string }

func newDrafts() *drafts { return &drafts{index: map[string]int{}} }

// at gives where a name of a sort is kept, and whether it is new.
func (d *drafts) at(sort, name string, next int) (int, bool) {
	key := sort + "\x00" + word.Fold(name)
	if i, ok := d.index[key]; ok {
		return i, false
	}
	d.index[key] = next
	return next, true
}

func (d *drafts) platform(name string) *platform {
	i, fresh := d.at("platform", name, len(d.platforms))
	if fresh {
		d.platforms = append(d.platforms, &platform{name: name})
	}
	return d.platforms[i]
}

func (d *drafts) position(name string) *position {
	i, fresh := d.at("position", name, len(d.positions))
	if fresh {
		d.positions = append(d.positions, &position{name: name, quantity: map[string]string{}})
	}
	return d.positions[i]
}

func (d *drafts) part(number string) *part {
	i, fresh := d.at("part", number, len(d.parts))
	if fresh {
		d.parts = append(d.parts, &part{number: number})
	}
	return d.parts[i]
}

// named gives the drafted trait of a name.
func (d *drafts) named(name string) *trait {
	i, fresh := d.at("trait", name, len(d.traits))
	if fresh {
		d.traits = append(d.traits, &trait{name: name})
	}
	return d.traits[i]
}

// trait drafts the trait of a column with the values in it.
func (d *drafts) trait(b *builder, c *column) {
	if b.Is(AsTrait, c.name) {
		return
	}
	t := d.named(c.name)
	if c.Share(shape.Size) >= 0.6 {
		t.kind = "size"
	}
	for _, v := range c.Values {
		for _, one := range listed(v.Text) {
			t.add(one)
		}
	}
}

// listed parts a cell of a trait into the values that it names.
func listed(text string) []string {
	var out []string
	for _, one := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		if one = trimmed(one); one != "" && word.Fold(one) != "any" && word.Fold(one) != "n/a" {
			out = append(out, one)
		}
	}
	return out
}

func (t *trait) add(value string) {
	if value != "" && !slices.ContainsFunc(t.values, func(v string) bool { return word.Fold(v) == word.Fold(value) }) {
		t.values = append(t.values, value)
	}
}

// topic gives the name of the drafted trait that asks about a topic: one that there is already where
// the two differ by slips of the hand alone.
func (d *drafts) topic(name string) string {
	if name == "" {
		name = "Restriction"
	}
	var names []string
	for _, t := range d.traits {
		names = append(names, t.name)
	}
	if near := word.Slip(name, names); near != "" {
		return near
	}
	return name
}

// free gives a name that no drafted trait has.
func (d *drafts) free(name string) string {
	out := name
	for n := 2; d.index["trait\x00"+word.Fold(out)] > 0 || len(d.traits) > 0 && word.Fold(d.traits[0].name) == word.Fold(out); n++ {
		out = fmt.Sprintf("%s %d", name, n)
	}
	return out
}

// restricted drafts what a condition needs on a platform: the trait, and that its vehicles may have
// any of its values.
func (d *drafts) restricted(c condition, on string) {
	if !c.drafted {
		return
	}
	t := d.named(c.column)
	if c.says == "Yes" || c.says == "No" {
		t.question = c.column + "?"
		t.add("Yes")
		t.add("No")
	} else {
		t.add(trimmed(c.says))
	}
	if on != "" {
		d.platform(on).having(c.column).any = true
	}
}

// having gives what vehicles of a platform have of a trait.
func (p *platform) having(trait string) *had {
	for _, h := range p.has {
		if word.Fold(h.trait) == word.Fold(trait) {
			return h
		}
	}
	p.has = append(p.has, &had{trait: trait})
	return p.has[len(p.has)-1]
}

func (h *had) add(value string) {
	if !slices.ContainsFunc(h.values, func(v string) bool { return word.Fold(v) == word.Fold(value) }) {
		h.values = append(h.values, value)
	}
}

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

func (d *drafts) partsTable(b *builder) Table {
	t := Table{schema.Parts, []string{"Part", "Name", "Family"}, nil}
	for _, p := range d.parts {
		if !b.Is(AsPart, p.number) && !b.parts.read[word.Fold(p.number)] {
			t.Rows = append(t.Rows, []string{p.number, p.name, p.family})
		}
	}
	return t
}
