package check

import (
	"fmt"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

var partUnused = &Check{
	Kind: finding.Kind{Code: finding.PartUnused, Severity: "note",
		Summary: "a current part that no fitment cell offers",
		Doc:     "The part is listed and fits nowhere, neither by itself nor in a kit that is offered. It may be new, and its fitment still to be written.",
		Before:  "Parts!A9  HD-24   (no Fitment cell names it)",
		After:   "Fitment!C5  HD-24"},
	Catalogue: func(c *Catalogue) {
		offered, seen := map[*model.Part]bool{}, map[*model.Fits]bool{}
		for _, f := range c.Fitments {
			for _, fc := range f.Cells {
				if seen[fc.Fits] {
					continue // cells with one text share their Fits
				}
				seen[fc.Fits] = true
				fc.Fits.Parts(func(p *model.Part) { offered[p] = true })
			}
		}
		for _, p := range c.Parts {
			if maybe := c.owed.Offering(p); len(maybe) > 0 && p.Status == model.Current && !offered[p] {
				maybe[0].Cause.Owe(finding.PartUnused, 1)
			} else if p.Status == model.Current && !offered[p] {
				c.Report(&finding.Finding{Code: finding.PartUnused, Severity: finding.Note, Part: p.Number,
					Message: fmt.Sprintf("no fitment cell offers %s", p.Number), Cells: finding.At(p.At)})
			}
		}
	},
}

var familyAlike = &Check{
	Kind: finding.Kind{Code: finding.FamilyAlike, Severity: "warning",
		Summary: "a family of one part that is nearly called like a family of several",
		Doc:     "Families need no declaration: a misspelt one is a family of its own, and what Limits, Compatibility and Calculated say of the right one does not reach the part.",
		Before:  "Parts!C9  Dampr    (C2 to C8 say Damper)",
		After:   "Parts!C9  Damper"},
	Catalogue: func(c *Catalogue) {
		count := map[string]int{}
		var several []string
		for _, p := range c.Parts {
			key := word.Fold(p.Family)
			if count[key]++; count[key] == 2 && key != "" {
				several = append(several, p.Family)
			}
		}
		for _, p := range c.Parts {
			if p.Family == "" || count[word.Fold(p.Family)] > 1 {
				continue
			}
			if near := word.Slip(p.Family, several); near != "" {
				c.Report(&finding.Finding{Code: finding.FamilyAlike, Severity: finding.Warning, Part: p.Number,
					Message: fmt.Sprintf("%s is the only part of the family %s, and others are of the family %s", p.Number, p.Family, near),
					Cells:   finding.At(p.FamilyAt),
					Fix:     fmt.Sprintf("write %s if that is meant", near)})
			}
		}
	},
}

var partNotCurrent = &Check{
	Kind: finding.Kind{Code: finding.PartNotCurrent, Severity: "error where the part is withdrawn, warning where it is superseded",
		Summary: "a fitment cell offers a part that is superseded or withdrawn",
		Doc:     "The message follows Replaced by to the part that can be ordered today. An older part may stay as a later choice; accept it where that is meant.",
		Before:  "Fitment!C4  HD-10   (Parts: HD-10 superseded, replaced by HD-20)",
		After:   "Fitment!C4  HD-20 or HD-10   (accepted)"},
	Position: func(p *Position) {
		told := tally{p: p}
		for i := range p.Levels {
			level := &p.Levels[i]
			for _, c := range level.Cells {
				c.Fits.Parts(func(part *model.Part) {
					if part.Status != model.Current {
						told.add(c.At, part.StatusAt, part.Number, p.Decides(level, c), func() finding.Finding { return notCurrent(c.At, part) })
					}
				})
			}
		}
		told.report()
	},
}

func notCurrent(at cell.Place, p *model.Part) finding.Finding {
	severity := finding.Warning
	if p.Status == model.Withdrawn {
		severity = finding.Error
	}
	return finding.Finding{Code: finding.PartNotCurrent, Severity: severity, Part: p.Number,
		Message: fmt.Sprintf("%s is %s%s", p.Number, p.Status, successors(p)),
		Cells:   finding.At(at, p.StatusAt),
		Fix:     "offer what replaces it, or accept the finding where the older part is meant"}
}

// successors follows what replaces a part to what can be ordered today.
func successors(p *model.Part) string {
	var b strings.Builder
	seen := map[*model.Part]bool{p: true}
	for {
		if p.ReplacedBy == nil || p.ReplacedBy.Outcome != model.Fitted || len(p.ReplacedBy.Alternatives) == 0 {
			if b.Len() == 0 {
				return ", and nothing is named to replace it"
			}
			return b.String()
		}
		fmt.Fprintf(&b, "; %s replaces it", Says(p.ReplacedBy))
		first := p.ReplacedBy.Alternatives[0]
		if seen[first[0].Part] {
			return ", and what replaces it leads back to it"
		}
		if len(p.ReplacedBy.Alternatives) > 1 || len(first) > 1 || first[0].Part.Status == model.Current {
			return b.String()
		}
		p = first[0].Part
		seen[p] = true
		fmt.Fprintf(&b, ", which is %s", p.Status)
	}
}
