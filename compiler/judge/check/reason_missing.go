package check

import (
	"fmt"
	"strings"
	"unicode"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

var reasonMissing = &Check{
	Kind: finding.Kind{Code: finding.ReasonMissing, Severity: "warning",
		Summary: "a cell says none without a reason, or ask without a question",
		Doc:     "Guides print the reason behind none and the question behind ask. Without it a reader cannot tell what is meant from what was forgotten, and nobody can tell later whether it still holds. Cells of one column are told together. planned may stand alone.",
		Before:  "Fitment!F6  none",
		After:   "Fitment!F6  none: the axle has no mounts"},
	Catalogue: func(c *Catalogue) {
		type key struct {
			sheet    *cell.Sheet
			position *model.Position
			outcome  model.Outcome
		}
		var order []key
		cells := map[key][]cell.Place{}
		seen := map[cell.Place]bool{}
		for _, f := range c.Fitments {
			for _, fc := range f.Cells {
				o := fc.Fits.Outcome
				if strings.ContainsFunc(fc.Fits.Text, letterOrDigit) || o != model.None && o != model.Ask || seen[fc.At] {
					continue
				}
				seen[fc.At] = true // a merged cell stands in several rows
				k := key{fc.At.Sheet, fc.Position, o}
				if cells[k] == nil {
					order = append(order, k)
				}
				cells[k] = append(cells[k], fc.At)
			}
		}
		for _, k := range order {
			c.Report(unreasoned(k.outcome, k.position, cells[k]))
		}
	},
}

// letterOrDigit tells what a reason has and a lone dash or question mark has not.
func letterOrDigit(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// unreasoned is the finding on the cells of one column that say none, or ask, and no more.
func unreasoned(o model.Outcome, p *model.Position, at []cell.Place) *finding.Finding {
	says, fix := "none, and not why nothing belongs here", "write none and the reason, as in none: the axle has no mounts; guides print it"
	if o == model.Ask {
		says, fix = "ask, and not what to ask", "write ask and what to measure or whom to ask, as in ask: count the holes in the bracket; guides print it"
	}
	gist := fmt.Sprintf("a cell for %s says %s", p.Name, says)
	f := &finding.Finding{Code: finding.ReasonMissing, Severity: finding.Warning, Position: p.Name, Message: gist, Cells: finding.At(at...), Fix: fix}
	if len(at) > 1 {
		f.Message, f.Constant = fmt.Sprintf("%d cells for %s say %s", len(at), p.Name, says), gist
	}
	return f
}
