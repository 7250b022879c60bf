package enumerate

import (
	"maps"
	"slices"
)

// twin makes a row that says the same as another one: under the same
// conditions, under narrower ones, in the years after, or for other values of
// a trait. For the last two the first row is changed as well.
func (g *gen) twin(f *fit) *fit {
	t := *f
	t.row = newRow()
	t.cells = maps.Clone(f.cells)
	t.traits = slices.Clone(f.traits)
	t.says, t.columns, t.notes = maps.Clone(f.says), maps.Clone(f.columns), slices.Clone(f.notes)
	switch g.IntN(6) {
	case 0:
		g.retime(&t, g.yearCond(-1))
	case 1:
		g.narrowTrait(&t)
	case 2, 3:
		g.adjacent(f, &t)
	case 4:
		g.otherValues(f, &t)
	}
	if g.chance(0.15) {
		t.precedence = pick(g, []int{0, 1, 10})
		t.cells["Precedence"] = t.precedence
	}
	return &t
}

func (g *gen) retime(f *fit, years cond) {
	f.years = years
	f.cells["Years"] = g.yearText(years)
}

func (g *gen) revalue(f *fit, i int, c cond) {
	f.traits[i] = c
	f.cells[g.c.traits[i].name] = g.traitText(i, c)
}

// adjacent gives the rows years that follow on one another, or nearly so.
func (g *gen) adjacent(f, t *fit) {
	all := pick(g, g.c.platforms).years()
	from, to := all[0], all[len(all)-1]
	cut := g.between(from-1, to)
	early, late := [2]int{g.between(from-1, cut), cut}, [2]int{cut + 1, g.between(cut+1, to+1)}
	switch g.IntN(6) {
	case 0:
		early[0] = earliest
	case 1:
		late[1] = last
	case 2:
		late[1]++
		late[0]++ // a year lies between them
	}
	g.retime(f, cond{form: "list", spans: [][2]int{early}})
	g.retime(t, cond{form: "list", spans: [][2]int{late}})
	if g.chance(0.3) {
		f.years, t.years = t.years, f.years
		f.cells["Years"], t.cells["Years"] = t.cells["Years"], f.cells["Years"]
	}
}

// busy is the index of a trait that rows may name, or -1.
func (g *gen) busy() int {
	var out []int
	for i, t := range g.c.traits {
		if !t.idle {
			out = append(out, i)
		}
	}
	if len(out) == 0 {
		return -1
	}
	return pick(g, out)
}

func (g *gen) narrowTrait(t *fit) {
	if i := g.busy(); i >= 0 && t.traits[i].form == "" {
		g.revalue(t, i, g.traitCond(i, pick(g, []string{"list", "list n/a", "not"})))
	}
}

// otherValues gives each row one value of a trait, sometimes the same.
func (g *gen) otherValues(f, t *fit) {
	i := g.busy()
	if i < 0 {
		return
	}
	values := append(count(len(g.c.traits[i].values)), never)
	for _, r := range []*fit{f, t} {
		g.revalue(r, i, cond{form: "list", spans: singles([]int{pick(g, values)})})
	}
}
