package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/judge/limits"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// Home is where what was kept is found again.
type Home struct {
	Index    *decide.Index
	Platform *model.Platform
	Cat      *model.Catalogue
	// Place gives where a cell stands now; false where nobody knows.
	Place func(cell.Place) (cell.Place, bool)
	// Part gives a part by its number.
	Part func(number string) *model.Part
	// Cause gives the finding that is the same; nil where there is none.
	Cause func(Cause) *finding.Finding
	// Moved tells that rows stand elsewhere, so that what quotes an address is out of date.
	Moved bool
}

// Again gives what was found as the result of this run; false where it must be found anew.
func (r *Run) Again(k *Kept, home Home) (*Result, bool) {
	h := homing{home, finding.NewMover(home.Cat), true}
	out := &Result{use: accept.Use{}}
	for _, f := range k.findings {
		out.findings = append(out.findings, h.finding(f))
	}
	for _, i := range k.accepted {
		out.use[home.Cat.Acceptances[i]] = true
	}
	for _, d := range k.debts {
		cause := home.Cause(d.cause)
		h.ok = h.ok && cause != nil
		out.debts = append(out.debts, debt{cause, d.code})
	}
	h.rows(k, out)
	for _, m := range k.met {
		out.meet(r.subject(home.Part(m.part), m.limit))
	}
	out.needs = needs{alone: h.places(k.needs.alone)}
	for _, s := range k.needs.sets {
		out.needs.sets = append(out.needs.sets, h.places(s))
	}
	return out, h.ok
}

// subject gives a limit of a part.
func (r *Run) subject(part *model.Part, limit int) *limits.Subject {
	for _, s := range r.limits.About(part) {
		if s.Index == limit {
			return s
		}
	}
	panic("check: subject: a limit is no longer about its part")
}

// homing brings pieces of what was kept home; ok is false once one has no home.
type homing struct {
	Home
	regions *finding.Mover
	ok      bool
}

func (h *homing) rows(k *Kept, out *Result) {
	if len(k.reached)+len(k.placed)+len(k.ruledOut) == 0 {
		return
	}
	var rows []any
	h.Index.Rows(h.Platform, func(row any) { rows = append(rows, row) })
	for _, i := range k.reached {
		out.reached = append(out.reached, rows[i])
	}
	for _, i := range k.placed {
		out.placed = append(out.placed, rows[i])
	}
	for _, x := range k.ruledOut {
		r := ruledOut{row: rows[x.row]}
		for _, i := range x.by {
			r.by = append(r.by, rows[i].(*model.Break))
		}
		out.ruledOut = append(out.ruledOut, r)
	}
}

func (h *homing) place(at cell.Place) cell.Place {
	out, ok := h.Place(at)
	h.ok = h.ok && ok
	return out
}

func (h *homing) places(all []cell.Place) []cell.Place {
	out := make([]cell.Place, len(all))
	for i, at := range all {
		out[i] = h.place(at)
	}
	return out
}

// finding brings a finding home. One whose texts may quote addresses stays valid only where the
// cells stand where they stood.
func (h *homing) finding(f *finding.Finding) *finding.Finding {
	out := f.Copy()
	h.ok = h.ok && !(h.Moved && f.Constant != "")
	out.Cells = nil
	for _, c := range f.Cells {
		h.ok = h.ok && !(h.Moved && c.Note != "")
		out.Cells = append(out.Cells, finding.Cell{Place: h.place(c.Place), Note: c.Note})
	}
	if f.Accepted != nil {
		a := *f.Accepted
		a.Cell = h.place(a.Cell)
		out.Accepted = &a
	}
	out.Region = h.regions.Move(f.Region)
	return out
}
