package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
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
			at := map[complaintPlace][]heard{}
			for _, c := range rows {
				of := complaintPlace{c.Position, word.Fold(c.Family)}
				at[of] = append(at[of], heard{c, model.TextKey(c.Helps)})
				p.disordered(at[of])
			}
		}
	},
}

// complaintPlace is a place of a complaint.
type complaintPlace struct {
	position *model.Position
	family   string // folded
}

// heard is a row about a place, with what it says there, as texts are compared.
type heard struct {
	*model.Complaint
	says string
}

// disordered tells where the last of some rows about one place disagrees with those before it: on each
// vehicle with the first that it disagrees with there.
func (p *Platform) disordered(rows []heard) {
	c := rows[len(rows)-1]
	box, by := p.Bounds(&c.When), p.Mention()
	by.Box(box)
	open := p.Intersect(p.All, p.Box(box))
	for _, o := range rows[:len(rows)-1] {
		if open == space.Empty {
			return
		}
		if o.Before(c.Complaint) != 0 || o.says != c.says {
			other := p.Bounds(&o.When)
			by.Box(other)
			told := p.Intersect(open, p.Box(other))
			p.orders(o.Complaint, c.Complaint, told, by)
			open = p.Minus(open, told)
		}
	}
}

// orders tells that two rows about one place disagree on some vehicles.
func (p *Platform) orders(first, second *model.Complaint, on space.Region, by decide.Mention) {
	f := finding.Finding{Code: finding.ComplaintOrder, Severity: finding.Warning,
		Message: fmt.Sprintf("the complaint %q has %s twice for these vehicles of %s, under Order %s and %s", first.Name, first.Place(), p.Model.Name, ordered(first), ordered(second)),
		Cells:   []finding.Cell{{Place: orderCell(first)}, {Place: orderCell(second)}},
		Fix:     "write the same number, or conditions that no vehicle meets both of"}
	if first.Before(second) == 0 {
		f.Message = fmt.Sprintf("the complaint %q has %s twice for these vehicles of %s, with two texts under How it helps, of which only the first is printed", first.Name, first.Place(), p.Model.Name)
		f.Cells = finding.At(first.At, second.At)
		f.Fix = "delete one of the rows, or write conditions that no vehicle meets both of"
	}
	p.Report(f, on, by)
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
