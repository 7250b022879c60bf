package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

var complaintOrder = &Check{
	Kind: finding.Kind{Code: finding.ComplaintOrder, Severity: "warning",
		Summary: "two rows put one place of one complaint in different order on the same vehicles, or say two things about it",
		Doc:     "Order says which place of a complaint is looked at first. Where two rows about the same place hold for one vehicle and have different numbers, nobody knows which was meant: the row that comes first holds there. Where only what they say under How it helps differs, the second is never printed. Rows about different vehicles may differ.",
		Before:  "Complaints!A2  dives when braking  B2  any  C2  Front damper  D2  1\nComplaints!A5  dives when braking  B5  H7  C5  Front damper  D5  3",
		After:   "Complaints!A2  dives when braking  B2  not H7  C2  Front damper  D2  1\nComplaints!A5  dives when braking  B5  H7  C5  Front damper  D5  3"},
	Platform: func(p *Platform) {
		if len(p.Complaints) == 0 {
			return
		}
		defer p.Release(p.Mark())
		for _, rows := range model.Named(p.Complaints) {
			for i, c := range rows {
				for _, o := range rows[:i] {
					if o.Position == c.Position && word.Fold(o.Family) == word.Fold(c.Family) && (o.Before(c) != 0 || unheard(o, c)) {
						p.orders(o, c)
					}
				}
			}
		}
	},
}

// orders tells where two rows about one place both hold.
func (p *Platform) orders(first, second *model.Complaint) {
	one, other, by := p.Bounds(&first.When), p.Bounds(&second.When), p.Mention()
	both, ok := one.Intersect(other)
	if !ok {
		return
	}
	by.Box(one)
	by.Box(other)
	f := finding.Finding{Code: finding.ComplaintOrder, Severity: finding.Warning,
		Message: fmt.Sprintf("the complaint %q has %s twice for these vehicles of %s, under Order %s and %s", first.Name, first.Place(), p.Model.Name, ordered(first), ordered(second)),
		Cells:   []finding.Cell{{Place: orderCell(first)}, {Place: orderCell(second)}},
		Fix:     "write the same number, or conditions that no vehicle meets both of"}
	if first.Before(second) == 0 {
		f.Message = fmt.Sprintf("the complaint %q has %s twice for these vehicles of %s, with two texts under How it helps, of which only the first is printed", first.Name, first.Place(), p.Model.Name)
		f.Cells = finding.At(first.At, second.At)
		f.Fix = "delete one of the rows, or write conditions that no vehicle meets both of"
	}
	p.Report(f, p.Intersect(p.All, p.Box(both)), by)
}

// unheard tells whether what the second of two rows about one place says is never printed.
func unheard(first, second *model.Complaint) bool {
	return model.TextKey(first.Helps) != model.TextKey(second.Helps)
}

// orderCell is where the order is written, or where it is left blank.
func orderCell(c *model.Complaint) cell.Place {
	if c.Order.Stated() {
		return c.OrderAt
	}
	return c.At
}

func ordered(c *model.Complaint) string {
	if !c.Order.Stated() {
		return "(blank)"
	}
	return c.Order.RatString()
}
