package report

import (
	"fmt"
	"io"

	"ferrule/compiler/ask/gaps"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// Gaps writes a ranking for people: at most top pieces of each gap (0: all).
func Gaps(w io.Writer, r *gaps.Ranking, top int, o Options) error {
	p := newPage(w, o)
	if len(r.Positions) == 0 {
		p.line("no gap is left" + acceptedToo(r))
		return p.err
	}
	p.wrap("", 0, fmt.Sprintf("gaps: %s at %s%s", Amount(r.Amount), count(len(r.Positions), "position"), acceptedToo(r)))
	for i := range r.Positions {
		pos := &r.Positions[i]
		p.line("")
		p.painted(fmt.Sprintf("%s (%s): %s", p.paint(bold, pos.Position.Name),
			pos.Position.Coverage, Amount(pos.Amount)))
		for k := range pos.Platforms {
			p.gap(&pos.Platforms[k], top)
		}
	}
	return p.err
}

func acceptedToo(r *gaps.Ranking) string {
	if r.Accepted.Empty() {
		return ""
	}
	return "; someone accepted gaps of " + Amount(r.Accepted) + " more"
}

// Amount says vehicles on the road first: they are what is ranked by.
func Amount(a gaps.Amount) string {
	return road(a.OnTheRoad) + " on the road, " + count(a.Configurations.String(), "configuration")
}

func (p *page) gap(g *gaps.Platform, top int) {
	if !g.Exact {
		p.wrap("  ", 2, g.Platform.Name+": too irregular to be counted")
		if g.Example != nil {
			p.aside("example", g.Example.String())
		}
		return
	}
	p.line("  " + g.Platform.Name + ": " + Amount(g.Amount))
	if top == 0 {
		top = len(g.Pieces)
	}
	for _, piece := range g.Pieces[:min(top, len(g.Pieces))] {
		p.wrap("    ", 6, Amount(piece.Amount)+": "+piece.Where.String())
	}
	if n := len(g.Pieces) - top; n > 0 {
		p.wrap("    ", 6, fmt.Sprintf("+%d more boxes; --top 0 lists all", n))
	}
	if g.Rest != nil {
		p.wrap("    ", 6, "and "+count(g.Rest.String(), "configuration")+" outside all boxes listed")
	}
}

// Effect writes for people what further rows would change.
func Effect(w io.Writer, e *gaps.Effect, o Options) error {
	p := newPage(w, o)
	for _, r := range e.Rows {
		p.wrap("if ", 3, r.Text)
		for _, u := range r.Unknown {
			p.wrap("   ", 3, u+" (taken for a part to come)")
		}
	}
	covered, conflicts, unknown := gaps.Nothing(), gaps.Nothing(), 0
	for i := range e.Changes {
		p.line("")
		p.change(&e.Changes[i])
		if !e.Changes[i].Exact {
			unknown++
			continue
		}
		covered.Add(e.Changes[i].Covered.Amount)
		conflicts.Add(e.Changes[i].Conflicts.Amount)
	}
	for _, f := range e.Findings {
		p.line("")
		p.entry(entry{findings: []*finding.Finding{f}}, true)
	}
	p.line("")
	if len(e.Changes) == 0 {
		p.wrap("", 0, "no vehicle that has the position meets these conditions, so nothing would change")
		return p.err
	}
	words := "in all: newly covered " + Amount(covered) + "; newly in conflict " + Amount(conflicts)
	if unknown > 0 {
		words += fmt.Sprintf("; not counted, since too irregular: %d", unknown)
	}
	p.wrap("", 0, words)
	return p.err
}

func (p *page) change(c *gaps.Change) {
	p.title(c.Position.Name + " on " + c.Platform.Name)
	if !c.Exact {
		p.wrap("  ", 2, "too irregular to be worked out")
		return
	}
	p.wrap("  ", 2, "the conditions hold for "+Amount(c.Matched))
	for _, s := range []struct {
		words string
		set   gaps.Set
	}{
		{"newly covered", c.Covered},
		{"newly in conflict", c.Conflicts},
		{"in conflict as before", c.StillConflict},
		{"another cell says the same already", c.Agrees},
		{"takes the place of what a cell of lower precedence says", c.Replaces},
		{"overruled by a cell of higher precedence", c.Overruled},
	} {
		if s.set.Empty() {
			continue
		}
		p.wrap("  ", 4, s.words+": "+Amount(s.set.Amount))
		p.boxes(s.set.Where)
		if s.set.Rest != nil {
			p.aside("", "and "+count(s.set.Rest.String(), "configuration")+" outside all boxes")
		}
	}
	for _, x := range c.Clashes {
		at := "another row that is tried"
		if x.Cell.At.Sheet.Name != "" {
			at = x.Cell.At.String()
		}
		p.wrap("  ", 4, fmt.Sprintf("disagrees with %s, which says %q: %s", at, x.Cell.Fits.String(), Amount(x.Amount)))
	}
	gap := c.After[model.Gap]
	p.wrap("  ", 2, "still a gap: "+Amount(gap))
}

// boxes lists the first of a set's boxes.
func (p *page) boxes(boxes []model.Box) {
	for _, b := range boxes[:min(len(boxes), shownBoxes)] {
		p.aside("where", b.String())
	}
	if n := len(boxes) - shownBoxes; n > 0 {
		p.aside("", fmt.Sprintf("+%d more boxes", n))
	}
}
