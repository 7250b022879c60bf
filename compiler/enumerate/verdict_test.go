package enumerate

import (
	"fmt"
	"sort"
	"strings"
)

// deciding is a fitment cell that decides, with what it says there.
type deciding struct {
	fit  *fit
	st   *statement
	say  string
	note string // what is printed with this cell, besides the row's Note
}

// verdict is what the catalogue says of one configuration at one position.
type verdict struct {
	exists   bool
	outcome  string // fitted, none, planned, ask, conflict, gap
	cells    []deciding
	quantity int
	air      int
}

// place finds the Positions row that holds a configuration: the first one.
func (p *position) place(platform int, g config) *place {
	for _, r := range p.rows {
		if r.matches(platform, g) {
			return r
		}
	}
	return nil
}

func (r *place) matches(platform int, g config) bool {
	return !r.gone && r.fault == "" && r.meets(platform, g)
}

// judge works out one configuration at one position.
func (c *catalogue) judge(platform int, g config, pos int) verdict {
	at := c.positions[pos].place(platform, g)
	if at == nil {
		return verdict{}
	}
	v := verdict{exists: true, quantity: at.quantity, air: at.air}
	top := 0
	for _, f := range c.fits {
		st := f.says[pos]
		if f.gone || f.fault != "" || st == nil || st.unreadable || !f.meets(platform, g) {
			continue
		}
		if len(v.cells) > 0 && f.precedence < top {
			continue
		}
		if len(v.cells) > 0 && f.precedence > top {
			v.cells = nil
		}
		top = f.precedence
		v.cells = append(v.cells, deciding{f, st, c.say(st, at.quantity), f.notes[pos]})
	}
	v.outcome = v.settle()
	return v
}

func (v verdict) settle() string {
	if len(v.cells) == 0 {
		return "gap"
	}
	for _, d := range v.cells[1:] {
		if d.say != v.cells[0].say {
			return "conflict"
		}
	}
	switch kind := v.cells[0].st.kind; kind {
	case "parts", "with":
		return "fitted"
	default:
		return kind
	}
}

// say writes a statement so that two of them are equal where cells agree.
func (c *catalogue) say(st *statement, quantity int) string {
	switch st.kind {
	case "with":
		return fmt.Sprintf("with %d", st.with)
	case "parts":
		var alts []string
		for _, items := range c.filled(st, quantity) {
			alts = append(alts, sayItems(items))
		}
		return strings.Join(alts, " | ")
	}
	return st.kind
}

func sayItems(items []item) string {
	var out []string
	for _, it := range items {
		out = append(out, fmt.Sprintf("%d x %s", it.quantity, it.name))
	}
	return strings.Join(out, " & ")
}

// filled gives the alternatives with quantities filled in, one part added up,
// in the order of the names.
func (c *catalogue) filled(st *statement, quantity int) [][]item {
	var out [][]item
	for _, items := range st.alts {
		sum := map[string]int{}
		for _, it := range items {
			n := it.quantity
			if n == 0 {
				n = 1
				if len(items) == 1 && c.kit(it.name) == nil {
					n = quantity
				}
			}
			sum[it.name] += n
		}
		var alt []item
		for name, n := range sum {
			alt = append(alt, item{name, n})
		}
		sort.Slice(alt, func(i, j int) bool { return alt[i].name < alt[j].name })
		out = append(out, alt)
	}
	return out
}

// contents lists a number and, for a kit, everything in it.
func (c *catalogue) contents(name string, into map[string]bool) {
	if into[name] {
		return
	}
	into[name] = true
	if k := c.kit(name); k != nil {
		for _, it := range k.items {
			c.contents(it.name, into)
		}
	}
}

// offered lists all numbers in all alternatives of a statement, and in kits.
func (c *catalogue) offered(st *statement) []string {
	into := map[string]bool{}
	for _, items := range st.alts {
		for _, it := range items {
			c.contents(it.name, into)
		}
	}
	var out []string
	for name := range into {
		out = append(out, name)
	}
	sort.Strings(out)
	return out
}
