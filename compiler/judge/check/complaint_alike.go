package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

var complaintAlike = &Check{
	Kind: finding.Kind{Code: finding.ComplaintAlike, Severity: "warning",
		Summary: "a complaint of one row that is nearly called like another one",
		Doc:     "Rows are about one complaint where they say the same, case and spaces aside. One that is misspelt is a complaint of its own, so that whoever opens the right one does not find its place.",
		Before:  "Complaints!A5  rocks from side to sid    (A2 to A4 say rocks from side to side)",
		After:   "Complaints!A5  rocks from side to side"},
	Catalogue: func(c *Catalogue) {
		misspelt(c.Complaints, func(row *model.Complaint, near string) {
			c.Report(&finding.Finding{Code: finding.ComplaintAlike, Severity: finding.Warning,
				Message: fmt.Sprintf("%q is the complaint of this row alone, and other rows say %q", row.Name, near),
				Cells:   finding.At(row.At),
				Fix:     fmt.Sprintf("write %s if that is meant", near)})
		})
	},
}

// misspelt calls f for each complaint of a single row that is nearly called like another.
func misspelt(rows []*model.Complaint, f func(row *model.Complaint, near string)) {
	all := model.Named(rows)
	for i, list := range all {
		if len(list) > 1 {
			continue
		}
		var others []string
		for k, o := range all {
			if len(o) > 1 || k < i {
				others = append(others, o[0].Name)
			}
		}
		if near := word.Slip(list[0].Name, others); near != "" {
			f(list[0], near)
		}
	}
}
