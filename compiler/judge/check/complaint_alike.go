package check

import (
	"fmt"

	"ferrule/compiler/finding"
)

var complaintAlike = &Check{
	Kind: finding.Kind{Code: finding.ComplaintAlike, Severity: "warning",
		Summary: "a complaint that is nearly called like another one, which has as many rows or more",
		Doc:     "Rows are about one complaint where they say the same, case and spaces aside. One that is misspelt is a complaint of its own, so that whoever opens the right one does not find its place.",
		Before:  "Complaints!A5  rocks from side to sid    (A2 to A4 say rocks from side to side)",
		After:   "Complaints!A5  rocks from side to side"},
	Requires: []Ground{Complained},
	Catalogue: func(c *Catalogue) {
		for _, s := range c.complained.slips {
			rows, near := s.rows, s.near
			f := &finding.Finding{Code: finding.ComplaintAlike, Severity: finding.Warning,
				Message: fmt.Sprintf("%q is the complaint of this row alone, and other rows say %q", rows[0].Name, near.Name),
				Fix:     fmt.Sprintf("write %s if that is meant", near.Name)}
			if len(rows) > 1 {
				f.Message = fmt.Sprintf("%q is the complaint of %d rows, and other rows say %q", rows[0].Name, len(rows), near.Name)
				f.Constant = fmt.Sprintf("%q is a complaint, and other rows say %q", rows[0].Name, near.Name)
			}
			f.Fix += "; or, where the other is misspelt, correct that"
			for _, r := range rows {
				f.Cells = append(f.Cells, finding.Cell{Place: r.At})
			}
			f.Cells = append(f.Cells, finding.Cell{Place: near.At, Note: "the other"})
			c.Report(f)
		}
	},
}
