package compare

import (
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// links says which things of two lists are the same: for each of one its index in the
// other, -1 for none.
type links struct{ toNew, toOld []int }

func (l links) join(old, new int) { l.toNew[old], l.toOld[new] = new, old }

func (l links) part(old, new int) { l.toNew[old], l.toOld[new] = -1, -1 }

// gone gives what only OLD has, came what only NEW has.
func (l links) gone() []int { return without(l.toNew) }
func (l links) came() []int { return without(l.toOld) }

func without(to []int) []int {
	var out []int
	for i, j := range to {
		if j < 0 {
			out = append(out, i)
		}
	}
	return out
}

// linked joins what has the same name. The first of several with one name counts.
func linked[T any](old, new []T, name func(T) string) links {
	l := links{make([]int, len(old)), make([]int, len(new))}
	for i := range l.toNew {
		l.toNew[i] = -1
	}
	at := map[string]int{}
	for i := len(old) - 1; i >= 0; i-- {
		at[word.Fold(name(old[i]))] = i
	}
	for j := range new {
		l.toOld[j] = -1
		if i, ok := at[word.Fold(name(new[j]))]; ok && l.toNew[i] < 0 {
			l.join(i, j)
		}
	}
	return l
}

// link joins all that is called the same in both releases.
func (c *comparison) link() {
	a, b := c.old.Catalogue, c.new.Catalogue
	c.platforms = linked(a.Platforms, b.Platforms, func(p *model.Platform) string { return p.Name })
	c.positions = linked(a.Positions, b.Positions, func(p *model.Position) string { return p.Name })
	c.traits = linked(a.Traits, b.Traits, func(t *model.Trait) string { return t.Name })
	for i, j := range c.traits.toNew {
		// A number that was a name has no value in common with it, and a date none with a number.
		if one, other := a.Traits[i].Kind, model.Choice; j >= 0 {
			if other = b.Traits[j].Kind; one != other && (one.OnLine() || other.OnLine()) {
				c.traits.part(i, j)
			}
		}
	}
	c.values = make([]links, len(b.Traits))
	for j, i := range c.traits.toOld {
		if i >= 0 {
			c.values[j] = sameValues(a.Traits[i], b.Traits[j])
		}
	}
}

// sameValues joins the values of a trait by name and then, for sizes, by magnitude.
func sameValues(old, new *model.Trait) links {
	l := linked(old.Values, new.Values, func(v *model.Value) string { return v.Name })
	if old.Kind != model.Size || new.Kind != model.Size {
		return l
	}
	for _, i := range l.gone() {
		for _, j := range l.came() {
			if old.Values[i].Size.Equal(new.Values[j].Size) {
				l.join(i, j)
				break
			}
		}
	}
	return l
}
