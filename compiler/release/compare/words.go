package compare

import (
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// region puts a set of configurations into words. With a half it is about vehicles of
// that release, and the boxes are exact among these; else about those of both, exact
// among all, and NEW says how many are on the road. It runs inside Try.
func (p *pair) region(where space.Region, h *half, by decide.Mention) *finding.Region {
	out := &finding.Region{Exact: true}
	all := p.exists
	if h != nil {
		all = h.all
		out.Configurations, out.OnTheRoad = p.count(h, where), p.road(h, where)
	} else {
		out.Configurations, out.OnTheRoad = p.Count(where), p.road(&p.new, where)
	}
	out.Example = p.example(where, h)
	var boxes []space.Box
	rest := where
	if err := p.Try(func() { boxes, rest = decide.Describe(p.Space, all, where, by, maxBoxes) }); err != nil {
		boxes, rest = nil, where // the count stands; no box does
	}
	for _, b := range boxes {
		out.Where = append(out.Where, p.words(b))
		if p.tightly {
			out.Tight = append(out.Tight, p.tight(where, h, b))
		}
	}
	if rest != space.Empty {
		out.Rest = p.Count(rest)
		if h != nil {
			out.Rest.Quo(out.Rest, p.spread(h))
		}
	}
	return out
}

// words gives a box in the words of the catalogue.
func (p *pair) words(b space.Box) model.Box {
	var out model.Box
	for i, set := range b {
		switch {
		case set == nil:
		case i == 0:
			out.Years = p.platform.Spans(set)
		default:
			out.Traits = append(out.Traits, model.TraitSet{Trait: p.traits[i-1], Values: set})
		}
	}
	return out
}

// example gives the first configuration of a region, without the traits that the half
// does not use.
func (p *pair) example(where space.Region, h *half) *model.Example {
	c, ok := p.First(where)
	if !ok {
		panic("compare: an empty region has no example")
	}
	e := &model.Example{Year: p.platform.Years[c[0]]}
	for i, t := range p.traits {
		if h == nil || !slices.Contains(h.free, i+1) {
			e.Traits = append(e.Traits, model.TraitValue{Trait: t, Value: c[i+1]})
		}
	}
	return e
}
