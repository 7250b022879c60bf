package enumerate

import (
	"fmt"
	"sort"
	"strings"
)

// guides compares the guides of one folder, configuration by configuration.
func (k *checker) guides(folder string, told map[string]guide) {
	if len(told) != len(k.c.platforms) {
		k.failf("guide", "%s: %d guides, want %d", folder, len(told), len(k.c.platforms))
	}
	for _, w := range k.o.worlds {
		name := k.c.platforms[w.platform].name
		g, ok := told[name]
		if !ok {
			k.failf("guide", "%s: none for %s", folder, name)
			continue
		}
		positions := map[string]guidePosition{}
		for _, p := range g.Positions {
			positions[p.Position] = p
		}
		for pos, p := range k.c.positions {
			k.guidePosition(folder+" "+name, w, pos, positions[p.name])
		}
		k.guideYears(folder, w, g)
	}
}

// guideYears must be the platform's years.
func (k *checker) guideYears(folder string, w *world, g guide) {
	want := map[int]bool{}
	for _, y := range k.c.platforms[w.platform].years() {
		want[y] = true
	}
	for _, s := range g.Years {
		for y := s[0]; y <= s[1]; y++ {
			if !want[y] {
				k.failf("guide", "%s %s: year %d", folder, g.Platform, y)
			}
			delete(want, y)
		}
	}
	if len(want) > 0 {
		k.failf("guide", "%s %s: lacks years %v", folder, g.Platform, want)
	}
}

func (k *checker) guidePosition(what string, w *world, pos int, told guidePosition) {
	name := k.c.positions[pos].name
	for _, c := range told.Cases {
		k.known(what, c.Where)
	}
	for i, g := range w.configs {
		v := k.o.verdicts[w][i][pos]
		var hit []guideCase
		for _, c := range told.Cases {
			if k.c.holds(c.Where, g) {
				hit = append(hit, c)
			}
		}
		want := 0
		if v.exists {
			want = 1
		}
		if len(hit) != want {
			k.failf("guide", "%s, %s: %d cases hold %s, want %d", what, name, len(hit), k.c.show(g), want)
			return
		}
		if v.exists && !k.sameCase(what+", "+name, w, i, pos, hit[0]) {
			return
		}
	}
	k.disjoint(what+", "+name, w, told.Cases)
}

// sameCase compares a case with the verdict of a configuration that it holds.
func (k *checker) sameCase(what string, w *world, i, pos int, c guideCase) bool {
	v, at := k.o.verdicts[w][i][pos], k.c.show(w.configs[i])
	if c.Outcome != v.outcome {
		k.failf("guide", "%s: %s where %s, want %s", what, c.Outcome, at, v.outcome)
		return false
	}
	sound := c.Settled == nil || *c.Settled
	// Where it is not settled, the world is told whom to ask and no part.
	hidden := strings.HasPrefix(what, "public") && !sound && c.With == "" && len(c.Alternatives) == 0
	if v.outcome == "fitted" && !hidden {
		if got, want := k.c.caseSays(c), v.cells[0].say; got != want {
			k.failf("guide", "%s: %q where %s, want %q", what, got, at, want)
			return false
		}
	}
	if missing := k.unprinted(v, c); missing != "" && !hidden && !(v.outcome == "planned" && strings.HasPrefix(what, "public")) {
		k.failf("guide", "%s: the note %q is not printed where %s", what, missing, at)
		return false
	}
	if strings.HasPrefix(what, "public") && strings.Contains(fmt.Sprint(c.Text, c.Notes), "for spring") {
		k.failf("guide", "%s: tells what is planned: %v", what, c)
		return false
	}
	if faulty := k.trouble(w, i, pos); faulty && sound || !faulty && v.outcome == "fitted" && !sound {
		k.failf("guide", "%s: settled %v where %s", what, sound, at)
		return false
	}
	return true
}

// unprinted gives a note of a deciding cell that a case does not print. Where
// cells are in conflict nothing of what they say needs to be there.
func (k *checker) unprinted(v verdict, c guideCase) string {
	if v.outcome == "conflict" {
		return ""
	}
	printed := strings.Join(append(c.Notes, c.Text), "\n")
	for _, d := range v.cells {
		for _, note := range []string{d.fit.note, d.note} {
			if !strings.Contains(printed, note) {
				return note
			}
		}
	}
	return ""
}

// trouble reports whether an error about parts stands at a configuration and
// position, accepted or not: the guide must then say that this is not settled.
func (k *checker) trouble(w *world, i, pos int) bool {
	return k.o.verdicts[w][i][pos].outcome == "conflict" || len(k.c.behind(k.o, spotAt{w, i, pos})) > 0
}

func holdsInt(sorted []int, x int) bool {
	at := sort.SearchInts(sorted, x)
	return at < len(sorted) && sorted[at] == x
}

// caseSays writes a fitted case as say writes a statement.
func (c *catalogue) caseSays(told guideCase) string {
	if told.With != "" {
		for i, p := range c.positions {
			if p.name == told.With {
				return c.say(&statement{kind: "with", with: i}, 1)
			}
		}
		return "with " + told.With
	}
	st := &statement{kind: "parts"}
	for _, alt := range told.Alternatives {
		var items []item
		for _, it := range alt {
			items = append(items, item{it.Part, it.Quantity})
		}
		st.alts = append(st.alts, items)
	}
	return c.say(st, 1)
}

// disjoint wants two cases of a position never to share a thinkable
// configuration, whether or not it exists.
func (k *checker) disjoint(what string, w *world, cases []guideCase) {
	for a := range cases {
		for b := range cases[:a] {
			if k.c.overlap(w.platform, cases[a].Where, cases[b].Where) {
				k.failf("disjoint", "%s: cases %d and %d overlap: %+v, %+v", what, b+1, a+1, cases[b].Where, cases[a].Where)
				return
			}
		}
	}
}

func (c *catalogue) overlap(platform int, a, b box) bool {
	shared := false
	for _, y := range c.platforms[platform].years() {
		shared = shared || (len(a.Years) == 0 || c.inYears(a.Years, y)) && (len(b.Years) == 0 || c.inYears(b.Years, y))
	}
	if !shared {
		return false
	}
	for _, t := range c.traits {
		x, inA := a.Traits[t.name]
		y, inB := b.Traits[t.name]
		if inA && inB && !meet(x, y) {
			return false
		}
	}
	return true
}

func meet(a, b []*string) bool {
	for _, x := range a {
		for _, y := range b {
			if x == nil && y == nil || x != nil && y != nil && *x == *y {
				return true
			}
		}
	}
	return false
}
