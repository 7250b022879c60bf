package propose

import "ferrule/compiler/propose/shape"

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
