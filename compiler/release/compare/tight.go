package compare

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// tight says a box of a region by the vehicles of the region in it, as
// decide.Platform.Tight does: each of its years, and each value of each trait, named,
// implied or left free, occurs in one of them. A trait is left free where its values are
// all that the release's vehicles have, NEW's where it is about both.
func (p *pair) tight(where space.Region, h *half, b space.Box) model.Box {
	var out model.Box
	if years := p.ValuesIn(where, b, 0); years.Len() < len(p.platform.Years) {
		out.Years = p.platform.Runs(years)
	}
	for i, t := range p.traits {
		if h != nil && slices.Contains(h.free, i+1) {
			continue
		}
		in := model.TraitSet{Trait: t, Values: p.ValuesIn(where, b, i+1)}
		switch {
		case p.everywhere(h, i+1, in.Values):
		case b.At(i+1) == nil:
			out.So = append(out.So, in)
		default:
			out.Traits = append(out.Traits, in)
		}
	}
	return out
}

// everywhere tells whether values are all that vehicles have of a trait: those of NEW
// where it uses the trait, and those of the half that a region is about.
func (p *pair) everywhere(h *half, trait int, values space.Set) bool {
	ok := h == nil || values.Equal(p.Values(h.all, trait))
	if slices.Contains(p.new.own, trait) {
		return ok && values.Equal(p.Values(p.new.all, trait))
	}
	return ok && (h != nil || values.Equal(p.Values(p.old.all, trait)))
}
