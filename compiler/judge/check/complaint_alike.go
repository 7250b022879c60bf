package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

var complaintAlike = &Check{
	Kind: finding.Kind{Code: finding.ComplaintAlike, Severity: "warning",
		Summary: "a complaint that is nearly called like another one, which has as many rows or more",
		Doc:     "Rows are about one complaint where they say the same, case and spaces aside. One that is misspelt is a complaint of its own, so that whoever opens the right one does not find its place.",
		Before:  "Complaints!A5  rocks from side to sid    (A2 to A4 say rocks from side to side)",
		After:   "Complaints!A5  rocks from side to side"},
	Catalogue: func(c *Catalogue) {
		misspelt(c.Complaints, func(rows []*model.Complaint, near *model.Complaint) {
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
		})
	},
}

// misspelt calls f for the rows of each complaint that is nearly called like another of as many rows or more; of two
// with as many rows the later one is taken for the slip.
func misspelt(complaints []*model.Complaint, f func(rows []*model.Complaint, near *model.Complaint)) {
	all := model.Named(complaints)
	for i, list := range all {
		var others []string
		for k, o := range all {
			if len(o) > len(list) || len(o) == len(list) && k < i {
				others = append(others, o[0].Name)
			}
		}
		if near := word.Slip(list[0].Name, others); near != "" {
			k := slices.IndexFunc(all, func(o []*model.Complaint) bool { return o[0].Name == near })
			f(list, all[k][0])
		}
	}
}
