package enumerate

import "strings"

// owed reports whether a finding that nothing is said at a position is not told, since a
// row or a cell there was set aside that may be about the vehicle. What someone accepts
// is told all the same.
func (c *catalogue) owed(k key, w *world, i, pos int) bool {
	e := &expected{key: k}
	for _, a := range c.accepts {
		if a.covers(e) && a.meets(w.platform, w.configs[i]) {
			return false
		}
	}
	for _, f := range c.fits {
		st := f.says[pos]
		if f.gone || st == nil || f.fault == "" && !st.unreadable {
			continue
		}
		if f.may(c, w.platform, w.configs[i]) {
			return true
		}
	}
	return false
}

// may reports whether a row is about a vehicle as far as it can be read.
func (f *fit) may(c *catalogue, platform int, g config) bool {
	k := f.conds
	k.traits = append([]cond{}, k.traits...)
	switch f.fault {
	case "Platform":
		if !strings.HasPrefix(f.cells["Platform"].(string), "not ") {
			return false // it is about another platform
		}
		k.platform = cond{}
	case "Years":
		k.years = cond{}
	}
	for t := range c.traits {
		if c.traits[t].name == f.fault {
			k.traits[t] = cond{}
		}
	}
	return k.meets(platform, g)
}
