package check

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
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
	placed   []int // likewise
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
	for _, row := range r.placed {
		k.placed = append(k.placed, number(row))
	}
	for _, x := range r.ruledOut {
		out := keptRuledOut{row: number(x.row)}
		for _, b := range x.by {
			out.by = append(out.by, number(b))
		}
		k.ruledOut = append(k.ruledOut, out)
	}
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
