package judge

import (
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// keptGuide is a guide without cases, for a catalogue made later.
type keptGuide struct {
	decide.Guide
	rules []int // rows of its Rules, as decide.Index.Rows counts them
}

// keepGuide keeps a guide that has no cases.
func keepGuide(g *decide.Guide, index *decide.Index) *keptGuide {
	k := &keptGuide{Guide: *g}
	if len(g.Rules) == 0 {
		return k
	}
	numbers := map[any]int{}
	index.Rows(g.Platform, func(row any) { numbers[row] = len(numbers) })
	for _, r := range g.Rules {
		k.rules = append(k.rules, numbers[r.Rule])
	}
	return k
}

// again gives the guide of the platform of a catalogue in which the same is said of it.
func (k *keptGuide) again(p *model.Platform, cat *model.Catalogue, index *decide.Index) *decide.Guide {
	out := k.Guide
	out.Platform, out.Traits = p, model.SetsIn(cat, k.Traits)
	out.Answers, out.Rules = nil, nil
	for _, a := range k.Answers {
		answer := *a
		answer.Position = cat.Positions[a.Position.Index]
		out.Answers = append(out.Answers, &answer)
	}
	var rows []any
	if len(k.rules) > 0 {
		index.Rows(p, func(row any) { rows = append(rows, row) })
	}
	for i, r := range k.Rules {
		use := decide.RuleUse{Rule: rows[k.rules[i]].(*model.Rule)}
		for _, b := range r.Where {
			use.Where = append(use.Where, b.In(cat))
		}
		out.Rules = append(out.Rules, use)
	}
	return &out
}
