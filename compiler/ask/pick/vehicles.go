package pick

import (
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// vehicles is the vehicles asked about, with what checks found on them.
type vehicles struct {
	*decide.Platform
	findings []*finding.Finding
}

// traitOf gives the catalogue's trait of a trait of the space; nil is the model year.
func traitOf(p *decide.Platform, t int) *model.Trait {
	if t == 0 {
		return nil
	}
	return p.Cat.Traits[t-1]
}

// only gives a set of values of one trait of the space as a box.
func only(p *decide.Platform, t int, set space.Set) model.Box {
	return p.Words(make(space.Box, t+1).With(t, set))
}

func platformNames(cat *model.Catalogue) []string {
	names := make([]string, len(cat.Platforms))
	for i, p := range cat.Platforms {
		names[i] = p.Name
	}
	return names
}

func sortTraits(sets []model.TraitSet) {
	slices.SortFunc(sets, func(a, b model.TraitSet) int { return a.Trait.Index - b.Trait.Index })
}

// position gives the ways of one place, and forgets its regions; false where none of the
// vehicles has it.
func (v *vehicles) position(a *decide.Answer) (Position, bool) {
	defer v.Release(v.Mark())
	out := Position{Position: a.Position, Exact: a.Exact}
	if !a.Exact {
		return out, true
	}
	err := v.Try(func() {
		var regions []space.Region
		out.Ways, regions, out.Exact = v.ways(a)
		if out.Exact {
			out.Depends = v.depends(out.Ways, regions)
		}
	})
	if err != nil || !out.Exact {
		return Position{Position: a.Position}, true
	}
	return out, len(out.Ways) > 1 || len(out.Ways) == 1 && !out.Ways[0].Missing
}

// ways joins the cases that print the same; false where it takes too many boxes to say
// which vehicles have no such position. It runs inside Try.
func (v *vehicles) ways(a *decide.Answer) (ways []Way, regions []space.Region, exact bool) {
	rest := v.All
	for _, c := range a.Cases {
		region := v.Intersect(v.All, v.Box(v.bounds(c.Where)))
		rest = v.Minus(rest, region)
		i := slices.IndexFunc(ways, func(w Way) bool { return sameWay(w.Case, c) })
		if i < 0 {
			ways, regions = append(ways, Way{Case: c, Where: []model.Box{c.Where}}), append(regions, region)
			continue
		}
		if ways[i].Case.Quantity != c.Quantity {
			ways[i].Case.Quantity = 0 // the position's own differs, and nothing follows from it
		}
		ways[i].Where = append(ways[i].Where, c.Where)
		regions[i] = v.Union(regions[i], region)
	}
	if rest != space.Empty {
		w := Way{Missing: true}
		if w.Where, exact = v.say(rest); !exact {
			return nil, nil, false
		}
		ways, regions = append(ways, w), append(regions, rest)
	}
	for i := range ways {
		ways[i].Case.Configurations = v.Count(regions[i])
		v.against(a.Position, &ways[i], regions[i])
	}
	return ways, regions, true
}

// sameWay tells whether two cases are one thing to be known of a place. How many the
// position takes is in the quantities of the parts already.
func sameWay(a, b decide.Case) bool {
	a.Quantity, b.Quantity = 0, 0
	return a.Same(&b)
}

// maxBoxes bounds the boxes that say which vehicles are meant.
const maxBoxes = 1000

// say gives a region as boxes; false where it takes too many. It runs inside Try.
func (v *vehicles) say(r space.Region) ([]model.Box, bool) {
	if r == space.Empty {
		return nil, true
	}
	boxes, rest := v.Describe(r, nil, maxBoxes)
	out := make([]model.Box, len(boxes))
	for i, b := range boxes {
		out[i] = v.Words(b)
	}
	return out, rest == space.Empty
}

func (v *vehicles) bounds(b model.Box) space.Box { return v.Bounds(b.When(v.Model)) }

// against notes what stands against the parts of a way.
func (v *vehicles) against(pos *model.Position, w *Way, region space.Region) {
	for _, f := range v.findings {
		if f.Position == pos.Name && telling(f) && v.concerns(f, region) {
			w.Findings = append(w.Findings, f)
		}
	}
	for _, r := range v.Rules {
		box := v.Bounds(&r.When)
		if r.Effect != model.Care || !v.Meets(region, box) || !offers(&w.Case, r) {
			continue
		}
		care := Care{Rule: r}
		if v.Minus(region, v.Box(box)) != space.Empty {
			care.Where = v.Words(box)
		}
		w.Care = append(w.Care, care)
	}
}

// telling tells whether a finding is about parts that are offered: coverage is told by
// the outcome itself.
func telling(f *finding.Finding) bool {
	return f.Code != finding.CoverageGap && (f.Severity == finding.Error || f.Part != "")
}

func (v *vehicles) concerns(f *finding.Finding, region space.Region) bool {
	r := f.Region.Open()
	if r == nil || !r.Exact {
		return false
	}
	if r.Rest != nil {
		return true // it may, and a part is better doubted than taken
	}
	return slices.ContainsFunc(r.Where, func(b model.Box) bool { return v.Meets(region, v.bounds(b)) })
}

// offers tells whether a case offers a part that the rule is about.
func offers(c *decide.Case, r *model.Rule) bool {
	found := false
	(&model.Fits{Alternatives: c.Alternatives}).Parts(func(p *model.Part) { found = found || r.About(p) })
	return found
}
