package enumerate

// never is the index that stands for 'does not apply' in a condition: it is
// behind all values, as in the order of examples.
const never = 99

// cond is one condition cell. Spans hold indexes of values (or of platforms,
// or years); never in a span is n/a.
type cond struct {
	form  string // "" for blank, any, list, not, from, to
	spans [][2]int
}

func (c cond) inside(x int) bool {
	for _, s := range c.spans {
		if s[0] <= x && x <= s[1] {
			return true
		}
	}
	return false
}

// meets reads the column 'elsewhere' of the table of conditions.
func (c cond) meets(x int) bool {
	switch c.form {
	case "", "any":
		return true
	case "not":
		return !c.inside(x)
	}
	return c.inside(x)
}

// holds reads the column 'in Vehicles', for a trait.
func (c cond) holds(x int) bool {
	switch c.form {
	case "":
		return x == never
	case "any":
		return x != never
	case "not":
		return x != never && !c.inside(x)
	}
	return c.inside(x)
}

func (k conds) meets(platform int, g config) bool {
	if !k.platform.meets(platform) || !k.years.meets(g.year) {
		return false
	}
	for i, c := range k.traits {
		if !c.meets(g.vals[i]) {
			return false
		}
	}
	return true
}

// holds is for Vehicles rows, where a blank trait does not apply.
func (k conds) holds(platform int, g config) bool {
	if !k.platform.meets(platform) || !k.years.meets(g.year) {
		return false
	}
	for i, c := range k.traits {
		if !c.holds(g.vals[i]) {
			return false
		}
	}
	return true
}
