package decide

import (
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Uses gives the traits that vehicles of the platform have, with the values that
// occur.
func (p *Platform) Uses() []model.TraitSet {
	var out []model.TraitSet
	for _, t := range p.Cat.Traits {
		if p.Has(t) {
			out = append(out, model.TraitSet{Trait: t, Values: p.occurring(t)})
		}
	}
	return out
}

func (p *Platform) occurring(t *model.Trait) space.Set {
	box := make(space.Box, t.Index+2)
	var in []int
	for v := 0; v <= t.Absent(); v++ {
		box[t.Index+1] = space.SetOf(v)
		if p.Meets(p.All, box) {
			in = append(in, v)
		}
	}
	return space.SetOf(in...)
}

// ruleBoxes is how many boxes of a rule's vehicles a guide lists; what they leave out
// is then told by the rule's own conditions.
const ruleBoxes = 50

// RuleUses gives the compatibility rows that hold for a vehicle of the platform. It
// runs inside Try.
func (p *Platform) RuleUses() []RuleUse {
	var out []RuleUse
	for _, r := range p.Rules {
		box := p.Bounds(&r.When)
		if !p.Meets(p.All, box) {
			continue
		}
		use := RuleUse{Rule: r}
		in := p.Intersect(p.All, p.Box(box))
		m := p.Mention()
		m.Box(box)
		boxes, rest := p.Describe(in, m, ruleBoxes)
		if rest != space.Empty {
			boxes = []space.Box{box}
		}
		use.Where = p.tightAll(boxes)
		out = append(out, use)
	}
	return out
}

// tightAll says boxes; none where one of them is all of the platform.
func (p *Platform) tightAll(boxes []space.Box) []model.Box {
	var out []model.Box
	for _, b := range boxes {
		w := p.Tight(b)
		if !w.Restricts() && len(w.So) == 0 {
			return nil
		}
		out = append(out, w)
	}
	return out
}
