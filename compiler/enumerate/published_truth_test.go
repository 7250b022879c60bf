package enumerate

import (
	"fmt"
	"slices"
	"strings"
)

// thing is a vehicle that exists: "" stands for 'does not apply'.
type thing struct {
	year   int
	traits map[string]string
}

func (b box) has(v thing) bool {
	if len(b.Years) > 0 && !slices.ContainsFunc(b.Years, func(s [2]int) bool { return s[0] <= v.year && v.year <= s[1] }) {
		return false
	}
	for name, values := range b.Traits {
		if !slices.ContainsFunc(values, func(x *string) bool { return text(x) == v.traits[name] }) {
			return false
		}
	}
	return true
}

func text(value *string) string {
	if value == nil {
		return ""
	}
	return *value
}

// fitAt is a way in which a part is offered at a place; kit is "" where it is by itself.
type fitAt struct {
	part, platform, position, kit string
	choice                        int
}

// ruleAt is what a Compatibility row says; the family is folded.
type ruleAt struct{ platform, part, family, with, effect string }

// truth is what was enumerated: sets of vehicles by their place in the list of the
// platform.
type truth struct {
	years    map[string][]int // that the platform has, vehicles or none
	vehicles map[string][]thing
	fits     map[fitAt]map[int]bool
	rules    map[ruleAt]map[int]bool
	about    map[string]map[ruleAt]bool // by part or kit
}

func newTruth() *truth {
	return &truth{map[string][]int{}, map[string][]thing{}, map[fitAt]map[int]bool{}, map[ruleAt]map[int]bool{}, map[string]map[ruleAt]bool{}}
}

func note[K comparable, V comparable](sets map[K]map[V]bool, k K, v V) {
	if sets[k] == nil {
		sets[k] = map[V]bool{}
	}
	sets[k][v] = true
}

// truth turns what was enumerated of a catalogue into what the world may be told.
func (c *catalogue) truth(o *outlook) *truth {
	t := newTruth()
	k := &checker{c: c, o: o}
	for _, w := range o.worlds {
		platform := c.platforms[w.platform].name
		t.years[platform] = c.platforms[w.platform].years()
		for i, g := range w.configs {
			v := thing{g.year, map[string]string{}}
			for n, tr := range c.traits {
				if g.vals[n] != never {
					v.traits[tr.name] = tr.values[g.vals[n]].name
				}
			}
			t.vehicles[platform] = append(t.vehicles[platform], v)
			for pos := range c.positions {
				if v := o.verdicts[w][i][pos]; v.exists && v.outcome == "fitted" && !k.trouble(w, i, pos) {
					c.offers(t, platform, pos, i, v)
				}
			}
			for _, r := range c.rules {
				if !r.gone && r.fault == "" && r.meets(w.platform, g) {
					note(t.rules, ruleAt{platform, r.part, fold(r.family), r.with, r.effect}, i)
				}
			}
		}
	}
	for at := range t.rules {
		for _, number := range c.numbers() {
			if c.concerns(at, number) {
				note(t.about, number, at)
			}
		}
	}
	return t
}

func (c *catalogue) offers(t *truth, platform string, pos, i int, v verdict) {
	if v.cells[0].st.kind != "parts" {
		return
	}
	for n, items := range c.filled(v.cells[0].st, v.quantity) {
		for _, it := range items {
			inside := map[string]bool{}
			c.contents(it.name, inside)
			for name := range inside {
				at := fitAt{name, platform, c.positions[pos].name, it.name, n + 1}
				if name == it.name {
					at.kit = ""
				}
				note(t.fits, at, i)
			}
		}
	}
}

// numbers lists what has a page.
func (c *catalogue) numbers() []string {
	var out []string
	for _, p := range c.parts {
		if !p.gone {
			out = append(out, p.name)
		}
	}
	for _, k := range c.kits {
		if c.part(k.name) == nil {
			out = append(out, k.name)
		}
	}
	return out
}

// concerns tells whether a rule is about a part, or about what it holds.
func (c *catalogue) concerns(r ruleAt, number string) bool {
	inside := map[string]bool{}
	c.contents(number, inside)
	for name := range inside {
		family := ""
		if p := c.part(name); p != nil {
			family = fold(p.family)
		}
		if name == r.with || (r.part == "" || r.part == name) && (r.family == "" || r.family == family) {
			return true
		}
	}
	return false
}

// values lists what occurs of a trait in some vehicles.
func values(all []thing, trait string) []string {
	var out []string
	for _, v := range all {
		if !slices.Contains(out, v.traits[trait]) {
			out = append(out, v.traits[trait])
		}
	}
	slices.Sort(out)
	return out
}

// loose says what of a box of a platform occurs in no vehicle in it; "" for nothing. All
// that the platform's vehicles have must occur where the box leaves a trait free, and
// every year of the platform where it names none.
func (t *truth) loose(platform string, b box) string {
	var in []thing
	traits := map[string]bool{}
	for _, v := range t.vehicles[platform] {
		if b.has(v) {
			in = append(in, v)
		}
		for name := range v.traits {
			traits[name] = true
		}
	}
	if len(in) == 0 {
		return "no vehicle is in it"
	}
	years := t.years[platform]
	if len(b.Years) > 0 {
		years = nil
		for _, s := range b.Years {
			for y := s[0]; y <= s[1]; y++ {
				years = append(years, y)
			}
		}
	}
	for _, y := range years {
		if !slices.ContainsFunc(in, func(v thing) bool { return v.year == y }) {
			return fmt.Sprintf("no vehicle is of %d", y)
		}
	}
	for name := range traits {
		told := values(t.vehicles[platform], name)
		if named, ok := b.Traits[name]; ok {
			told = nil
			for _, v := range named {
				told = append(told, text(v))
			}
		}
		slices.Sort(told)
		if has := values(in, name); !slices.Equal(has, told) {
			return fmt.Sprintf("of %s it says %s and its vehicles have %s", name, strings.Join(told, "|"), strings.Join(has, "|"))
		}
	}
	for name := range b.Traits {
		if !traits[name] {
			return "no vehicle has " + name
		}
	}
	return ""
}
