package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
)

var complaintUnanswered = &Check{
	Kind: finding.Kind{Code: finding.ComplaintUnanswered, Severity: "warning",
		Summary: "a complaint that no fit answers on some vehicles",
		Doc:     "A driver of one of these vehicles complains, and at none of the places that the complaint's rows name is anything fitted, or asked for: there is no such place on the vehicle, nothing of the family is fitted there, or a cell says none. Name a further place, or narrow the conditions of the rows so that they are not about these vehicles. A vehicle on which one of the places is a gap, a conflict or planned is not told, since that is told by itself.",
		Before:  "Complaints!A2  rocks from side to side  B2  any   C2  Anti-roll bar   (H7 of 2009+ has no anti-roll bar)",
		After:   "Complaints!A2  rocks from side to side  B2  any   C2  Anti-roll bar\nComplaints!A3  rocks from side to side  B3  H7  C3  Front damper"},
	Platform: func(p *Platform) {
		if len(p.Complaints) == 0 {
			return
		}
		defer p.Release(p.Mark())
		leads := p.Leads()
		aside := setAside(p.Cat.Complaints)
		for _, rows := range model.Named(p.Complaints) {
			if !aside[word.Fold(rows[0].Name)] {
				p.unanswered(rows, leads)
			}
		}
	},
}

// unanswered tells where one complaint has no answer.
func (p *Platform) unanswered(rows []*model.Complaint, leads []decide.Lead) {
	about, answered, told, by := space.Empty, space.Empty, space.Empty, p.Mention()
	f := finding.Finding{Code: finding.ComplaintUnanswered, Severity: finding.Warning,
		Message: fmt.Sprintf("nothing that is fitted on these vehicles of %s answers the complaint %q", p.Model.Name, rows[0].Name),
		Fix:     "name a place that they have, or narrow the conditions so that the complaint is not about them"}
	for _, c := range rows {
		box := p.Bounds(&c.When)
		if in := p.Intersect(p.All, p.Box(box)); in != space.Empty {
			about = p.Union(about, in)
			by.Box(box)
			f.Cells = appendCell(f.Cells, c.PlaceAt)
		}
	}
	for _, l := range leads {
		if word.Fold(l.Row.Name) == word.Fold(rows[0].Name) {
			by.Add(l.At.Mentioned())
			answered, told = p.Union(answered, l.Answered), p.Union(told, p.Intersect(l.Where, toldThere(l.At)))
		}
	}
	open := p.Minus(p.Minus(about, answered), told)
	for _, pos := range p.Cat.Positions {
		if !slices.ContainsFunc(rows, func(c *model.Complaint) bool { return c.Asks(pos) }) {
			continue
		}
		if cause := p.run.Owed.Vacant(pos); cause != nil && open != space.Empty {
			p.owe(cause, f.Code)
			return
		}
		open = p.owing(f, open, p.run.Owed.At(pos), p.Bounds)
	}
	p.Report(f, open, by)
}

// setAside gives the complaints, folded, of which a row was set aside, or is probably misspelt: nobody knows
// where else they lead, and that is told by itself.
func setAside(rows []*model.Complaint) map[string]bool {
	out := map[string]bool{}
	for _, c := range rows {
		if c.When.SetAside {
			out[word.Fold(c.Name)] = true
		}
	}
	misspelt(rows, func(list []*model.Complaint, near *model.Complaint) {
		out[word.Fold(list[0].Name)], out[word.Fold(near.Name)] = true, true
	})
	return out
}

// toldThere gives where it is told by itself that nothing is known of a place.
func toldThere(at *decide.Mount) space.Region {
	out := at.Union(at.Outcome[model.Conflict], at.Outcome[model.Planned])
	if at.Position.Coverage != model.Optional {
		out = at.Union(out, at.Outcome[model.Gap])
	}
	return out
}
