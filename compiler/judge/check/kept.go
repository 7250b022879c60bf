package check

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/judge/limits"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// Kept is what a run found on a platform, for a catalogue made later in which the same is said
// of it. Of Accepted rows, of rows about the platform and of causes it knows how to find them
// there.
type Kept struct {
	findings []*finding.Finding // as they were before they were told
	accepted []int              // Accepted rows that matched one, by their place in the catalogue
	debts    []keptDebt
	reached  []int // rows of the platform, as decide.Index.Rows counts them
	ruledOut []keptRuledOut
	met      []keptMet
	needs    needs
}

type keptDebt struct {
	cause Cause
	code  finding.Code
}

type keptRuledOut struct {
	row int
	by  []int
}

type keptMet struct {
	limit int
	part  string
}

// Cause is how a finding that was told before platforms were looked at is known again.
type Cause struct {
	code                 finding.Code
	message, file, sheet string
	pos                  cell.Pos
}

// CauseOf gives how a finding is known again.
func CauseOf(f *finding.Finding) Cause {
	c := Cause{code: f.Code, message: f.Message}
	if len(f.Cells) > 0 {
		c.pos = f.Cells[0].Pos
		if s := f.Cells[0].Sheet; s != nil {
			c.file, c.sheet = s.File, s.Name
		}
	}
	return c
}

// Keep keeps what was found on a platform, before anyone was told.
func (r *Result) Keep(index *decide.Index, p *model.Platform, cat *model.Catalogue) *Kept {
	k := &Kept{needs: r.needs}
	for _, f := range r.findings {
		k.findings = append(k.findings, f.Copy())
	}
	for i, a := range cat.Acceptances {
		if r.use[a] {
			k.accepted = append(k.accepted, i)
		}
	}
	for _, d := range r.debts {
		k.debts = append(k.debts, keptDebt{CauseOf(d.cause), d.code})
	}
	k.rows(r, index, p)
	for s := range r.met {
		k.met = append(k.met, keptMet{s.Index, s.Part.Number})
	}
	return k
}

// rows keeps which rows were reached, and which were ruled out.
func (k *Kept) rows(r *Result, index *decide.Index, p *model.Platform) {
	numbers := map[any]int{}
	index.Rows(p, func(row any) { numbers[row] = len(numbers) })
	number := func(row any) int {
		n, ok := numbers[row]
		if !ok {
			panic("check: Keep: a row is not about its platform")
		}
		return n
	}
	for _, row := range r.reached {
		k.reached = append(k.reached, number(row))
	}
	for _, x := range r.ruledOut {
		out := keptRuledOut{row: number(x.row)}
		for _, b := range x.by {
			out.by = append(out.by, number(b))
		}
		k.ruledOut = append(k.ruledOut, out)
	}
}

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
	if len(k.reached)+len(k.ruledOut) == 0 {
		return
	}
	var rows []any
	h.Index.Rows(h.Platform, func(row any) { rows = append(rows, row) })
	for _, i := range k.reached {
		out.reached = append(out.reached, rows[i])
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

// Across gives what findings of a platform may depend on although rows of others say it: which
// parts go on either side of a vehicle, and where that stands.
func (r *Run) Across() (said, placed string) {
	var parts []*model.Part
	for p := range r.either {
		parts = append(parts, p)
	}
	slices.SortFunc(parts, func(a, b *model.Part) int { return strings.Compare(a.Number, b.Number) })
	var what, where strings.Builder
	for _, p := range parts {
		fmt.Fprintf(&what, "%q", p.Number)
		for _, c := range r.either[p] {
			fmt.Fprintf(&where, "%q", c.Place)
		}
	}
	return what.String(), where.String()
}

// Odd gives the platforms with cells that are out of place, which is told from all others.
func (r *Run) Odd() map[*model.Platform]bool {
	out := map[*model.Platform]bool{}
	for c := range r.misfits {
		for _, p := range c.Row.When.On(r.cat) {
			out[p] = true
		}
	}
	return out
}
