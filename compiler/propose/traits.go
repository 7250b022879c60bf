package propose

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema/word"
)

// had is a trait with the values that vehicles of a platform have; all is any.
type had struct {
	trait  string
	values []string
	any    bool
}

type trait struct {
	name, kind, question string
	values               []string
}

// trait drafts the trait of a column with the values in it.
func (d *drafts) trait(b *builder, c *column) {
	if b.Is(AsTrait, c.name) {
		return
	}
	t := d.named(c.name)
	if c.Share(shape.Size) >= 0.6 {
		t.kind = "size"
	}
	for _, v := range c.Values {
		for _, one := range listed(v.Text) {
			t.add(one)
		}
	}
}

// listed parts a cell of a trait into the values that it names.
func listed(text string) []string {
	var out []string
	for _, one := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		if one = trimmed(one); one != "" && word.Fold(one) != "any" && word.Fold(one) != "n/a" {
			out = append(out, one)
		}
	}
	return out
}

func (t *trait) add(value string) {
	if value != "" && !slices.ContainsFunc(t.values, func(v string) bool { return word.Fold(v) == word.Fold(value) }) {
		t.values = append(t.values, value)
	}
}

// topic gives the name of the drafted trait that asks about a topic: one that there is already where
// the two differ by slips of the hand alone.
func (d *drafts) topic(name string) string {
	if name == "" {
		name = "Restriction"
	}
	var names []string
	for _, t := range d.traits {
		names = append(names, t.name)
	}
	if near := word.Slip(name, names); near != "" {
		return near
	}
	return name
}

// free gives a name that no drafted trait has.
func (d *drafts) free(name string) string {
	out := name
	for n := 2; d.index["trait\x00"+word.Fold(out)] > 0 || len(d.traits) > 0 && word.Fold(d.traits[0].name) == word.Fold(out); n++ {
		out = fmt.Sprintf("%s %d", name, n)
	}
	return out
}

// restricted drafts what a condition needs on a platform: the trait, and that its vehicles may have
// any of its values.
func (d *drafts) restricted(c condition, on string) {
	if !c.drafted {
		return
	}
	t := d.named(c.column)
	if c.says == "Yes" || c.says == "No" {
		t.question = c.column + "?"
		t.add("Yes")
		t.add("No")
	} else {
		t.add(trimmed(c.says))
	}
	if on != "" {
		d.platform(on).having(c.column).any = true
	}
}

// having gives what vehicles of a platform have of a trait.
func (p *platform) having(trait string) *had {
	for _, h := range p.has {
		if word.Fold(h.trait) == word.Fold(trait) {
			return h
		}
	}
	p.has = append(p.has, &had{trait: trait})
	return p.has[len(p.has)-1]
}

func (h *had) add(value string) {
	if !slices.ContainsFunc(h.values, func(v string) bool { return word.Fold(v) == word.Fold(value) }) {
		h.values = append(h.values, value)
	}
}

// tellTraits remarks on columns that are taken for traits by what stands in them alone.
func (r *reading) tellTraits() {
	for _, c := range r.all {
		if c.role != Trait || c.sure != Unsure {
			continue
		}
		var said []string
		for _, v := range c.Values[:min(len(c.Values), 4)] {
			said = append(said, trimmed(v.Text))
		}
		r.remark(places(c.Values), strings.Join(said, ", "), fmt.Sprintf("the column %s is taken for a trait, which tells vehicles apart, since few different texts stand in it", word.Quote(c.whole())),
			fmt.Sprintf("if it says something of the parts or of nothing that fits, a row of Layouts: skip, %s, in place of the one with is, and no row of Traits for it", r.where(c)))
	}
}
