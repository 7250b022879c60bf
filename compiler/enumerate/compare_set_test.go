package enumerate

import (
	"fmt"
	"strings"
)

// show writes a configuration for people.
func (c *catalogue) show(g config) string {
	out := []string{fmt.Sprint(g.year)}
	for i, t := range c.traits {
		name := "n/a"
		if v := g.vals[i]; v != never {
			name = t.values[v].name
		}
		out = append(out, t.name+"="+name)
	}
	return strings.Join(out, ", ")
}

// holds reports whether a configuration lies in a box.
func (c *catalogue) holds(b box, g config) bool {
	if len(b.Years) > 0 && !c.inYears(b.Years, g.year) {
		return false
	}
	for i, t := range c.traits {
		named, ok := b.Traits[t.name]
		if ok && !c.inValues(t, named, g.vals[i]) {
			return false
		}
	}
	return true
}

func (c *catalogue) inYears(spans [][2]int, year int) bool {
	for _, s := range spans {
		if s[0] <= year && year <= s[1] {
			return true
		}
	}
	return false
}

func (c *catalogue) inValues(t trait, named []*string, v int) bool {
	for _, name := range named {
		if name == nil && v == never || name != nil && v != never && *name == t.values[v].name {
			return true
		}
	}
	return false
}

// known checks that a box speaks only of declared names.
func (k *checker) known(what string, b box) {
	for name, values := range b.Traits {
		var found *trait
		for i := range k.c.traits {
			if k.c.traits[i].name == name {
				found = &k.c.traits[i]
			}
		}
		if found == nil {
			k.failf("box", "%s: no trait %q", what, name)
			continue
		}
		if len(values) == 0 {
			k.failf("box", "%s: no value of %q", what, name)
		}
		for _, v := range values {
			if v != nil && !found.has(*v) {
				k.failf("box", "%s: %s has no value %q", what, name, *v)
			}
		}
	}
}

func (t trait) has(name string) bool {
	for _, v := range t.values {
		if v.name == name {
			return true
		}
	}
	return false
}

// sameSet compares what a finding says of its set with the wanted one (none
// where an accepted entry is held against its row later), and returns it.
func (k *checker) sameSet(e *expected, f finding, want []int) []int {
	var got []int
	for i, g := range e.world.configs {
		for _, b := range f.Where {
			if k.c.holds(b, g) {
				got = append(got, i)
				break
			}
		}
	}
	for _, b := range f.Where {
		k.known(fmt.Sprint(e.key), b)
	}
	if want == nil {
		want = got
	} else if text := k.differ(e.world, got, want); text != "" && f.Rest == 0 {
		k.failf(e.code, "%v: where %s", e.key, text)
	}
	if f.Configurations != len(want) || len(got)+f.Rest != len(want) {
		k.failf(e.code, "%v: %d configurations, %d in its boxes, rest %d; want %d", e.key, f.Configurations, len(got), f.Rest, len(want))
	}
	if share := e.world.share(want); !near(f.OnTheRoad, share) {
		k.failf(e.code, "%v: %v on the road, want %v", e.key, f.OnTheRoad, share)
	}
	if f.Exact != nil && !*f.Exact {
		k.failf(e.code, "%v: not exact", e.key)
	}
	if len(want) > 0 {
		k.example(e, f, want[0])
	}
	return got
}

// differ tells the first configuration that one of two sets lacks.
func (k *checker) differ(w *world, got, want []int) string {
	has := map[int]int{}
	for _, i := range got {
		has[i]++
	}
	for _, i := range want {
		has[i] += 2
	}
	for i, g := range w.configs {
		switch has[i] {
		case 1:
			return "holds too much: " + k.c.show(g)
		case 2:
			return "lacks " + k.c.show(g)
		}
	}
	return ""
}

// example must be the first of the set. A trait that the platform never has
// may be left out of it.
func (k *checker) example(e *expected, f finding, first int) {
	if f.Example == nil {
		k.failf(e.code, "%v: no example", e.key)
		return
	}
	g := e.world.configs[first]
	ok := f.Example.Year == g.year
	for i, t := range k.c.traits {
		value, given := f.Example.Traits[t.name]
		switch {
		case !given:
			ok = ok && k.lacks(e.world, i)
		case value == nil:
			ok = ok && g.vals[i] == never
		default:
			ok = ok && g.vals[i] != never && t.values[g.vals[i]].name == *value
		}
	}
	if !ok {
		k.failf("example", "%v: %d %v, want %s", e.key, f.Example.Year, f.Example.Traits, k.c.show(g))
	}
}

// lacks reports whether a platform never has a trait.
func (k *checker) lacks(w *world, trait int) bool {
	for _, g := range w.configs {
		if g.vals[trait] != never {
			return false
		}
	}
	return true
}
