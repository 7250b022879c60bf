package sat

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/model"
)

// says is equal for two cells exactly where they agree at a position that takes q: the
// order of `or` counts, that of `+` does not, and texts never make a difference.
func says(f *model.Fits, q int) string {
	switch f.Outcome {
	case model.None, model.Planned, model.Ask:
		return "- " + f.Outcome.String()
	}
	if f.With != nil {
		return "with " + f.With.Name
	}
	var choices []string
	for _, a := range f.Alternatives {
		total := map[*model.Part]int{}
		for _, i := range a {
			n := i.Quantity
			if n == 0 {
				n = q
			}
			total[i.Part] += n
		}
		var items []string
		for part, n := range total {
			items = append(items, fmt.Sprintf("%d x %s", n, part.Number))
		}
		slices.Sort(items)
		choices = append(choices, strings.Join(items, " + "))
	}
	return strings.Join(choices, " or ")
}

// offered gives the parts of an alternative, those that kits hold included.
func offered(a model.Alternative) map[*model.Part]bool {
	out := map[*model.Part]bool{}
	var open func(*model.Part)
	open = func(p *model.Part) {
		if out[p] {
			return
		}
		out[p] = true
		for _, c := range p.Contents {
			open(c.Part)
		}
	}
	for _, i := range a {
		open(i.Part)
	}
	return out
}

// offers gives the parts of all alternatives of a cell, in the order of their numbers.
func offers(f *model.Fits) []*model.Part {
	all := map[*model.Part]bool{}
	for _, a := range f.Alternatives {
		for p := range offered(a) {
			all[p] = true
		}
	}
	var out []*model.Part
	for p := range all {
		out = append(out, p)
	}
	slices.SortFunc(out, func(a, b *model.Part) int { return cmp.Compare(a.Number, b.Number) })
	return out
}

// about tells whether a Compatibility row names the part: a row with Part and Family
// needs both.
func about(r *model.Rule, p *model.Part) bool {
	return (r.Part == nil || r.Part == p) && (r.Family == "" || r.Family == p.Family)
}

// concerned gives the parts of a cell that the row names, other than the one under With.
func concerned(r *model.Rule, f *model.Fits) []*model.Part {
	return slices.DeleteFunc(offers(f), func(p *model.Part) bool { return p == r.With || !about(r, p) })
}
