package check

import (
	"fmt"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

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
