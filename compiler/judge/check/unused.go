package check

import (
	"cmp"
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/limits"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

var positionUnused = &Check{
	Kind: finding.Kind{Code: finding.PositionUnused, Severity: "note",
		Summary: "a position that no fitment cell is about",
		Doc:     "The position is declared, and no row says what is fitted there, on any platform.",
		Before:  "Positions!A9  Bell crank   (no Fitment sheet has a column Bell crank)",
		After:   "Fitment!K1  Bell crank   K2  BC-4"},
	Catalogue: func(c *Catalogue) {
		used := map[*model.Position]bool{}
		for _, f := range c.Fitments {
			for _, fc := range f.Cells {
				used[fc.Position] = true
			}
		}
		for _, p := range c.Positions {
			if maybe := c.owed.At(p); len(maybe) > 0 && !used[p] {
				maybe[0].Cause.Owe(finding.PositionUnused, 1)
			} else if !used[p] {
				c.Report(&finding.Finding{Code: finding.PositionUnused, Severity: finding.Note, Position: p.Name,
					Message: fmt.Sprintf("no fitment cell says what is fitted at %s", p.Name), Cells: finding.At(p.At)})
			}
		}
	},
}

var traitUnused = &Check{
	Kind: finding.Kind{Code: finding.TraitUnused, Severity: "note",
		Summary: "a trait on which nothing depends",
		Doc:     "Vehicles are told apart by the trait, and no row of Fitment, Positions, Compatibility or Facts names it and no Air line does. Guides would ask the reader for nothing.",
		Before:  "Traits!A12  Cab   (only Vehicles has a column Cab)",
		After:   "Fitment!E1  Cab   E2  Long"},
	Catalogue: func(c *Catalogue) {
		used := map[*model.Trait]bool{}
		name := func(w *model.When) {
			for _, t := range w.Traits {
				used[t.Trait] = true
			}
		}
		for _, f := range c.Fitments {
			name(&f.When)
		}
		for _, r := range c.Rules {
			name(&r.When)
		}
		for _, r := range c.FactRows {
			name(&r.When)
		}
		for _, p := range c.Positions {
			for _, r := range p.Rows {
				name(&r.When)
				used[r.AirLine] = true
			}
		}
		for _, t := range c.Traits {
			if cause := c.owed.Naming(t); cause != nil && !used[t] {
				cause.Owe(finding.TraitUnused, 1)
			} else if !used[t] {
				c.Report(&finding.Finding{Code: finding.TraitUnused, Severity: finding.Note,
					Message: fmt.Sprintf("nothing depends on %s: no row of Fitment, Positions, Compatibility or Facts names it", t.Name), Cells: finding.At(t.At)})
			}
		}
	},
}

var limitUnused = &Check{
	Kind: finding.Kind{Code: finding.LimitUnused, Severity: "note",
		Summary: "a limit that is about no offered part",
		Doc:     "No fitment cell that decides anything offers a part of the limit's family at its position, so the limit was never worked out. Family or Position may name something else than was meant.",
		Before:  "Limits!B2  Front damper  C2  Anti-roll bar",
		After:   "Limits!B2  Front damper  C2  Damper"},
	Requires: []Ground{Met},
	Catalogue: func(c *Catalogue) {
		used := map[*model.Limit]bool{}
		for _, part := range c.Parts {
			for _, s := range c.limits.About(part) {
				used[s.Limit] = used[s.Limit] || s.Met()
			}
		}
		for _, l := range c.Limits {
			if l.Rule == nil || used[l] || (&model.When{}).Partial(c.Catalogue) {
				continue
			}
			if cause := cmp.Or(c.owed.Why(finding.LimitUnused), c.owed.Bearing(l)); cause != nil {
				cause.Owe(finding.LimitUnused, 1)
			} else {
				c.Report(&finding.Finding{Code: finding.LimitUnused, Severity: finding.Note,
					Message: fmt.Sprintf("no fitment cell offers a part that the limit %q is about", l.Name), Cells: finding.At(l.At)})
			}
		}
	},
}

var factUnused = &Check{
	Kind: finding.Kind{Code: finding.FactUnused, Severity: "note",
		Summary: "a fact that no limit needs",
		Doc:     "The fact is stated, and neither side of any limit names it, so nothing depends on it.",
		Before:  "Facts!C1  Wheelbase   (no Limits row names Wheelbase)",
		After:   "Limits!C2  Wheelbase - Overhang"},
	Catalogue: func(c *Catalogue) {
		if slices.ContainsFunc(c.Limits, func(l *model.Limit) bool { return l.Rule == nil }) {
			return // it cannot be read, and may have meant the fact
		}
		used := limits.Needed(c.Catalogue)
		var names []string
		for _, f := range c.Facts {
			if used[f.Index] {
				names = append(names, f.Name)
			}
		}
		for _, f := range c.Facts {
			cause := c.owed.Why(finding.FactUnused)
			if head := c.owed.Partly(f.At.Sheet); head != nil && head.Cells[0].Place == f.At {
				cause = head // it is none
			}
			if cause != nil && !used[f.Index] {
				cause.Owe(finding.FactUnused, 1)
			} else if !used[f.Index] {
				c.Report(&finding.Finding{Code: finding.FactUnused, Severity: finding.Note,
					Message: fmt.Sprintf("no limit needs %s%s", f.Name, word.DidYouMean(f.Name, names)), Cells: finding.At(f.At)})
			}
		}
	},
}
