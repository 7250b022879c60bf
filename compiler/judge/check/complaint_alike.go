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
	Requires: []Ground{Complaints},
	Catalogue: func(c *Catalogue) {
		for _, slip := range c.complaints.misspelt {
			c.Report(slip.finding())
		}
	},
}

// complaints is what is known of the complaints of a catalogue as a whole.
type complaints struct {
	misspelt []misspelt
	// aside are those, folded, of which a row was set aside, or which are probably misspelt: nobody knows where
	// else they lead, and that is told by itself.
	aside map[string]bool
}

// misspelt is a complaint that is nearly called like another one.
type misspelt struct {
	rows []*model.Complaint
	near *model.Complaint // the first row of the other
}

func newComplaints(rows []*model.Complaint) *complaints {
	out := &complaints{misspelt: misspeltOf(model.Named(rows)), aside: map[string]bool{}}
	for _, c := range rows {
		if c.When.SetAside {
			out.aside[word.Fold(c.Name)] = true
		}
	}
	for _, slip := range out.misspelt {
		out.aside[word.Fold(slip.rows[0].Name)], out.aside[word.Fold(slip.near.Name)] = true, true
	}
	return out
}

// misspeltOf gives the complaints that are nearly called like another of as many rows or more; of two with as many
// rows the later one is taken for the slip.
func misspeltOf(all [][]*model.Complaint) (out []misspelt) {
	order := slices.Clone(all)
	slices.SortStableFunc(order, func(a, b []*model.Complaint) int { return len(b) - len(a) })
	names, rank := make([]string, len(order)), map[*model.Complaint]int{}
	for i, rows := range order {
		names[i], rank[rows[0]] = word.Fold(rows[0].Name), i
	}
	for _, rows := range all {
		before := names[:rank[rows[0]]]
		if near := word.Slip(rows[0].Name, before); near != "" {
			out = append(out, misspelt{rows, order[slices.Index(before, near)][0]})
		}
	}
	return out
}

func (m *misspelt) finding() *finding.Finding {
	name, n := m.rows[0].Name, len(m.rows)
	f := &finding.Finding{Code: finding.ComplaintAlike, Severity: finding.Warning,
		Message: fmt.Sprintf("%q is the complaint of this row alone, and other rows say %q", name, m.near.Name),
		Fix:     fmt.Sprintf("write %s if that is meant; or, where the other is misspelt, correct that", m.near.Name)}
	if n > 1 {
		f.Message = fmt.Sprintf("%q is the complaint of %d rows, and other rows say %q", name, n, m.near.Name)
		f.Constant = fmt.Sprintf("%q is a complaint, and other rows say %q", name, m.near.Name)
	}
	for _, r := range m.rows {
		f.Cells = append(f.Cells, finding.Cell{Place: r.At})
	}
	f.Cells = append(f.Cells, finding.Cell{Place: m.near.At, Note: "the other"})
	return f
}
