package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
)

var inspectionAlike = &Check{
	Kind: finding.Kind{Code: finding.InspectionAlike, Severity: "warning",
		Summary: "two rows of Inspections say the same, or nearly so, of one place of the same vehicles",
		Doc:     "Guides print both. Where the levels differ, nobody knows which was meant. Such a row was copied and not changed, or one of the two is misspelt. Rows about different vehicles, or different places, may say the same.",
		Before:  "Inspections!A2  Broken leaves   B2  any\nInspections!A5  Broken leafs   B5  H7",
		After:   "Inspections!A2  Broken leaves   B2  any"},
	Platform: func(p *Platform) {
		if len(p.Inspections) == 0 {
			return
		}
		defer p.Release(p.Mark())
		near := nearLooks(p.Inspections)
		at := map[lookPlace][]*model.Inspection{}
		for _, n := range p.Inspections {
			of := lookPlace{n.Position, word.Fold(n.Look)}
			earlier := at[of]
			if like := near[of.look]; like != "" {
				earlier = append(slices.Clip(earlier), at[lookPlace{n.Position, like}]...)
			}
			p.inspectTwice(earlier, n)
			at[of] = append(at[of], n)
		}
	},
}

// lookPlace is a thing to look at, folded, at a place or, without one, at the vehicle as a whole.
type lookPlace struct {
	position *model.Position
	look     string
}

// nearLooks gives, of each thing to look at that is nearly called like one before it, that one; both folded.
func nearLooks(rows []*model.Inspection) map[string]string {
	var names []string
	seen := map[string]bool{}
	for _, n := range rows {
		if key := word.Fold(n.Look); !seen[key] {
			seen[key] = true
			names = append(names, key)
		}
	}
	out, likes := map[string]string{}, word.NewLikes(names)
	for i, name := range names {
		if k := likes.Slip(i, func(k int) bool { return k < i }); k >= 0 {
			out[name] = names[k]
		}
	}
	return out
}

// inspectTwice tells where a row holds beside earlier ones that say the same: on each vehicle against one of them.
func (p *Platform) inspectTwice(earlier []*model.Inspection, n *model.Inspection) {
	box, by := p.Bounds(&n.When), p.Mention()
	by.Box(box)
	open := p.Intersect(p.All, p.Box(box))
	for _, o := range earlier {
		if open == space.Empty {
			return
		}
		other := p.Bounds(&o.When)
		by.Box(other)
		both := p.Intersect(open, p.Box(other))
		p.tellTwice(o, n, both, by)
		open = p.Minus(open, both)
	}
}

// tellTwice tells that two rows say the same of some vehicles.
func (p *Platform) tellTwice(first, second *model.Inspection, on space.Region, by decide.Mention) {
	f := finding.Finding{Code: finding.InspectionAlike, Severity: finding.Warning, Cells: []finding.Cell{{Place: second.At}, {Place: first.At, Note: "the other"}},
		Message: fmt.Sprintf("guides print %s twice for these vehicles of %s", quoted(first.Look), p.Model.Name),
		Fix:     "delete one of the rows, or write conditions that no vehicle meets both of"}
	if word.Fold(first.Look) != word.Fold(second.Look) {
		f.Message = fmt.Sprintf("guides print %s and %s for the same vehicles of %s", quoted(first.Look), quoted(second.Look), p.Model.Name)
	}
	if first.Level != second.Level {
		f.Message += fmt.Sprintf(", under Level %s and %s", first.Level, second.Level)
		f.Fix += "; keep the graver level unless it is wrong"
	}
	p.Report(f, on, by)
}
