package enumerate

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
)

// renaming is one name that was changed: what is platform, trait, value, position or
// part, and trait is that of a value.
type renaming struct{ what, trait, old, new string }

// renamed gives the catalogue of a seed with one name changed wherever it stands.
func renamed(seed uint64, what string) (*catalogue, *renaming) {
	c := generate(seed)
	return c, c.rename(rand.New(rand.NewPCG(seed, 77)), what)
}

// rename changes one name of a kind; nil where there is none that can be changed.
func (c *catalogue) rename(r *rand.Rand, what string) *renaming {
	g := &gen{Rand: r, c: c}
	switch what {
	case "platform":
		p := &c.platforms[g.IntN(len(c.platforms))]
		n := &renaming{what, "", p.name, "N9 Tall"}
		p.name = n.new
		c.rewrite(n, func(column string, _ *row) bool { return column == "Platform" })
		return n
	case "part":
		return c.renamePart(pick(g, c.parts).name)
	case "position":
		return c.renamePosition(g.IntN(len(c.positions)))
	case "trait":
		return c.renameTrait(g.IntN(len(c.traits)))
	}
	t := &c.traits[g.IntN(len(c.traits))]
	if t.kind == "size" {
		return nil
	}
	v := &t.values[g.IntN(len(t.values))]
	n := &renaming{what, t.name, v.name, "Quite other"}
	v.name, v.alone = n.new, false
	c.rewrite(n, func(column string, r *row) bool {
		return column == t.name || column == "Value" && r.cells["Trait"] == t.name
	})
	return n
}

// rewrite changes a name in the cells of some columns, however it is written there.
func (c *catalogue) rewrite(n *renaming, in func(column string, r *row) bool) {
	words := strings.Fields(n.old)
	for i, w := range words {
		words[i] = regexp.QuoteMeta(w)
	}
	before, after := `(^|[^A-Za-z0-9-])`, `($|[^A-Za-z0-9-])`
	if n.what == "trait" { // a cell names one, and another's name may hold it
		before, after = `^(\s*)`, `(\s*)$`
	}
	name := regexp.MustCompile(`(?i)` + before + strings.Join(words, `\s+`) + after)
	for _, s := range c.sheets {
		for _, r := range s.rows {
			for column, what := range r.cells {
				switch text := what.(type) {
				case string:
					for in(column, r) && name.MatchString(text) {
						text = name.ReplaceAllString(text, "${1}"+n.new+"${2}")
					}
					r.cells[column] = text
				case int:
					if in(column, r) && fmt.Sprint(text) == n.old {
						r.cells[column] = n.new
					}
				}
			}
		}
	}
}

// fitColumns tells which columns hold what is fitted.
func (c *catalogue) fitColumns() map[string]bool {
	out := map[string]bool{"Fits": true}
	for _, p := range c.positions {
		out[p.name] = true
	}
	return out
}

func (c *catalogue) renamePart(old string) *renaming {
	n := &renaming{"part", "", old, "NP-77"}
	fits := c.fitColumns()
	c.rewrite(n, func(column string, r *row) bool {
		return fits[column] || slices.Contains([]string{"Part", "Kit", "With", "Replaced by"}, column)
	})
	now := func(name *string) {
		if *name == old {
			*name = n.new
		}
	}
	for _, p := range c.parts {
		now(&p.name)
	}
	for _, k := range c.kits {
		now(&k.name)
		for i := range k.items {
			now(&k.items[i].name)
		}
	}
	for _, r := range c.rules {
		now(&r.part)
		now(&r.with)
	}
	for _, a := range c.accepts {
		now(&a.part)
	}
	done := map[*item]bool{}
	for _, f := range c.fits {
		for _, st := range f.says {
			for _, alt := range st.alts {
				for i := range alt {
					if !done[&alt[i]] { // cells share statements
						done[&alt[i]] = true
						now(&alt[i].name)
					}
				}
			}
		}
	}
	return n
}

func (c *catalogue) renamePosition(pos int) *renaming {
	n := &renaming{"position", "", c.positions[pos].name, "Cab damper"}
	fits := c.fitColumns()
	c.rewrite(n, func(column string, r *row) bool { return fits[column] || column == "Position" })
	c.positions[pos].name = n.new
	c.rehead(n.old, n.new)
	c.rehead(n.old+" note", n.new+" note")
	for _, f := range c.fits {
		if f.columns[pos] == n.old {
			f.columns[pos] = n.new
		}
	}
	for _, a := range c.accepts {
		if a.position == n.old {
			a.position = n.new
		}
	}
	return n
}

func (c *catalogue) renameTrait(i int) *renaming {
	n := &renaming{"trait", "", c.traits[i].name, "Sort of frame"}
	c.rewrite(n, func(column string, r *row) bool { return column == "Trait" || column == "Air line" })
	c.traits[i].name = n.new
	c.rehead(n.old, n.new)
	return n
}

// rehead gives a column another name.
func (c *catalogue) rehead(old, new string) {
	for _, s := range c.sheets {
		for i, col := range s.columns {
			if col.name == old {
				s.columns[i] = column{new, new}
			}
		}
		for i := range s.merges {
			for _, name := range []*string{&s.merges[i].column, &s.merges[i].over} {
				if *name == old {
					*name = new
				}
			}
		}
		for _, r := range s.rows {
			if what, ok := r.cells[old]; ok && slices.ContainsFunc(s.columns, func(c column) bool { return c.name == new }) {
				r.cells[new] = what
				delete(r.cells, old)
			}
		}
	}
}
