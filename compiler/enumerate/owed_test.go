package enumerate

import (
	"slices"
	"strings"
)

// owed reports whether a finding that nothing is said at a position is not told, since a
// row or a cell there was set aside that may be about the vehicle. What someone accepts
// is told all the same.
func (c *catalogue) owed(k key, w *world, i, pos int) bool {
	return !c.allowed(k, w, i) && slices.ContainsFunc(c.setAside(pos), func(f *fit) bool {
		return f.may(c, f.fault, f.row, w.platform, w.configs[i])
	})
}

// setAside lists the rows of which nobody knows what they say at a position.
func (c *catalogue) setAside(pos int) []*fit {
	var out []*fit
	for _, f := range c.fits {
		if st := f.says[pos]; !f.gone && st != nil && (f.fault != "" || st.unreadable) {
			out = append(out, f)
		}
	}
	return out
}

// allowed reports whether someone has accepted a finding on a vehicle.
func (c *catalogue) allowed(k key, w *world, i int) bool {
	e := &expected{key: k}
	return slices.ContainsFunc(c.accepts, func(a *accept) bool { return a.covers(e) && a.meets(w.platform, w.configs[i]) })
}

// unstated reports whether a finding that nobody states a fact is not told, since a row
// that states it was set aside and may be about the vehicle. What someone accepts is told
// all the same.
func (c *catalogue) unstated(k key, w *world, i int, f *fact) bool {
	return !c.allowed(k, w, i) && slices.ContainsFunc(f.rows, func(r *factRow) bool {
		return !r.gone && r.fault != "" && r.may(c, r.fault, r.row, w.platform, w.configs[i])
	})
}

// may reports whether a row with these conditions is about a vehicle as far as it can be
// read; the fault is the column that cannot.
func (k conds) may(c *catalogue, fault string, r *row, platform int, g config) bool {
	k.traits = append([]cond{}, k.traits...)
	switch fault {
	case "Platform":
		if !strings.HasPrefix(r.cells["Platform"].(string), "not ") {
			return false // it is about another platform
		}
		k.platform = cond{}
	case "Years":
		k.years = cond{}
	}
	for t := range c.traits {
		if c.traits[t].name == fault {
			k.traits[t] = cond{}
		}
	}
	return k.meets(platform, g)
}
