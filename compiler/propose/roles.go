package propose

import (
	"strings"
	"unicode"

	"ferrule/compiler/propose/shape"
	"ferrule/schema/word"
)

// column is a column of a table with what it is taken for.
type column struct {
	*shape.Column
	role Role
	name string // of a trait, of a position or of a property; "" for other roles
	sure Sure
	why  string
}

// roles takes every column of a table for something.
func (n *Names) roles(t *shape.Table) []*column {
	var out []*column
	for i := range t.Columns {
		c := &column{Column: &t.Columns[i]}
		n.byHead(c, t)
		out = append(out, c)
	}
	for _, c := range out {
		if c.role == Unclear {
			n.byContent(c, t, out)
		}
	}
	n.grid(out, t)
	once(out)
	return out
}

// byHead takes a column for what its heading says, where its cells do not speak against it.
func (n *Names) byHead(c *column, t *shape.Table) {
	head := c.Head()
	if name, ok := n.Find(AsTrait, head); ok {
		c.is(Trait, name, Certain, "a trait of the catalogue has the name of the heading")
		return
	}
	for _, text := range []string{c.whole(), head} {
		if name, ok := n.Find(AsPosition, text); ok {
			c.is(PlaceOf, name, Certain, "a position of the catalogue has the name of the heading")
			return
		}
	}
	role := roleOfHead(head)
	against := false
	switch role {
	case PartNo, Other:
		against = c.Filled > 0 && c.Share(shape.Code, shape.Codes) < 0.5 && !n.mostly(c, AsPart)
	case Years:
		against = c.Share(shape.Years) < 0.6
	case Quantity:
		against = c.Share(shape.Number) < 0.6
	case Running:
		against = c.Share(shape.Number) < 0.8
	case Place:
		if c.Share(shape.Number) > 0.8 {
			role = Running
		}
	case Name, Platform, Family:
		if c.Share(shape.Number) > 0.8 {
			role = Running
			break
		}
		against = c.Share(shape.Mark) > 0.5 || c.Share(shape.Code, shape.Codes) > 0.7 && role == Family
	}
	if role != Unclear && !against {
		c.is(role, "", Certain, "the heading says so")
	}
}

// byContent takes a column for what its cells mostly are.
func (n *Names) byContent(c *column, t *shape.Table, all []*column) {
	codes := c.Share(shape.Code, shape.Codes)
	switch {
	case c.Filled == 0:
	case n.mostly(c, AsPlatform):
		c.is(Platform, "", Certain, "its cells are platforms of the catalogue")
	case n.mostly(c, AsPosition):
		c.is(Place, "", Certain, "its cells are positions of the catalogue")
	case n.mostlyValues(c):
	case codes >= 0.6 && (placeLike(c.whole()) || has(all, PlaceOf)):
		c.is(PlaceOf, placeName(c.Heads), Likely, "part numbers stand under the name of a place")
	case n.valueHead(c) && c.Share(shape.Number, shape.Code, shape.Codes, shape.Mark) >= 0.8: // of a grid
	case (codes >= 0.6 || n.mostly(c, AsPart)) && !has(all, PartNo) && !has(all, PlaceOf):
		c.is(PartNo, "", Likely, "its cells look like part numbers")
	case c.Share(shape.Years) >= 0.8 && roleOfHead(c.Head()) != Quantity && !openYears(c.Head()):
		c.is(Years, "", Likely, "its cells are years")
	case trailing(c) >= 0.6 && !has(all, Platform):
		c.is(Platform, "", Likely, "its cells are names with years behind them")
	case c.measured():
		c.is(Property, c.Head(), Likely, "its cells are sizes, or its heading has a unit")
	case c.Share(shape.Prose) >= 0.3:
		c.is(Note, "", Likely, "its cells are sentences")
	}
}

func (c *column) is(role Role, name string, sure Sure, why string) {
	c.role, c.name, c.sure, c.why = role, name, sure, why
}

// whole gives all headings over the column, from the top down, each once.
func (c *column) whole() string {
	var out []string
	for _, h := range c.Heads {
		if h != "" && (len(out) == 0 || word.Fold(out[len(out)-1]) != word.Fold(h)) {
			out = append(out, h)
		}
	}
	return strings.Join(out, " ")
}

// measured tells columns of sizes, and of numbers under a unit in brackets.
func (c *column) measured() bool {
	_, unit, ok := strings.Cut(c.Head(), "[")
	if !ok {
		_, unit, ok = strings.Cut(c.Head(), "(")
	}
	return c.Share(shape.Size) >= 0.6 || ok && len(unit) <= 8 && c.Share(shape.Number, shape.Size) >= 0.6
}

// openYears tells the headings of years that begin or end something.
func openYears(head string) bool {
	switch plainHead(head) {
	case "from", "to", "start", "end", "from year", "to year", "year from", "year to", "first year", "last year", "begin", "until":
		return true
	}
	return false
}

// trailing tells how many of a column's texts have years behind a name, from 0 to 1.
func trailing(c *column) float64 {
	n := 0
	for _, v := range c.Values {
		if _, _, ok := shape.TrailingYears(v.Text); ok {
			n++
		}
	}
	return float64(n) / float64(max(len(c.Values), 1))
}

// mostly tells whether at least two thirds of a column's texts are names of a sort.
func (n *Names) mostly(c *column, s Sort) bool {
	hits := 0
	for _, v := range c.Values {
		name, _, _ := shape.TrailingYears(v.Text)
		base, _ := shape.Sign(v.Text)
		if n.Is(s, v.Text) || n.Is(s, base) || s == AsPlatform && n.Is(s, name) {
			hits++
		}
	}
	return hits > 0 && hits*3 >= len(c.Values)*2
}

// mostlyValues takes a column for the trait of which most of its cells are values.
func (n *Names) mostlyValues(c *column) bool {
	found := map[string]int{}
	for _, v := range c.Values {
		if t, ok := n.traitOf(v.Text); ok {
			if found[t]++; found[t]*3 >= len(c.Values)*2 {
				c.is(Trait, t, Likely, "its cells are values of the trait "+t)
				return true
			}
		}
	}
	return false
}

func has(all []*column, r Role) bool {
	for _, c := range all {
		if c.role == r {
			return true
		}
	}
	return false
}

// the gives the first column of a role; nil for none.
func the(all []*column, r Role) *column {
	for _, c := range all {
		if c.role == r {
			return c
		}
	}
	return nil
}

// once leaves a role that a row has once to the column that is surest of it, the first of several.
func once(all []*column) {
	for _, r := range []Role{PartNo, Name, Family, Place, Platform, Years, Maker, Quantity, Running} {
		var best *column
		for _, c := range all {
			if c.role == r && (best == nil || c.sure > best.sure) {
				best = c
			}
		}
		for _, c := range all {
			if c.role == r && c != best {
				c.is(Unclear, "", Unsure, "another column is taken for the same")
			}
		}
	}
}

// placeName makes the name of a position of the headings over it: Front, Damper becomes Front damper.
func placeName(heads []string) string {
	var out []string
	for _, h := range heads {
		if h = trimmed(h); len(strings.Fields(h)) > 1 || len(h) > 4 {
			h = spokenCase(h)
		}
		if h == "" || len(out) > 0 && word.Fold(out[len(out)-1]) == word.Fold(h) {
			continue
		}
		if len(out) > 0 && len(h) > 1 && h[1] >= 'a' && h[1] <= 'z' {
			h = strings.ToLower(h[:1]) + h[1:]
		}
		out = append(out, h)
	}
	return strings.Join(strings.Fields(strings.Join(out, " ")), " ")
}

// spokenCase writes a text in capitals as others are: FRONT AXLE is Front axle.
func spokenCase(text string) string {
	if text != strings.ToUpper(text) || text == strings.ToLower(text) || strings.ContainsAny(text, "0123456789") {
		return text
	}
	r := []rune(strings.ToLower(text))
	return string(unicode.ToUpper(r[0])) + string(r[1:])
}
