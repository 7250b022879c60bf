package report

import (
	"fmt"
	"math/big"
	"strings"
	"unicode/utf8"

	"ferrule/compiler/finding"
	"ferrule/sheets/cell"
)

// How much of many is shown to people; the other formats tell all.
const (
	shownEntries = 3 // of one shape
	shownCells   = 8 // of one list
	shownBoxes   = 3 // of one finding
)

func (p *page) block(b block) {
	if b.accepted {
		p.title(fmt.Sprintf("%s: %d accepted", b.code, b.size()))
		p.accepted(b)
		return
	}
	head := fmt.Sprintf("%s: %s", b.code, count(b.size(), b.severity.String()))
	if n := b.cells(); n > 0 {
		head += " at " + count(n, "cell")
	}
	p.title(head)
	fix, shared := b.fix()
	for _, s := range b.shapes {
		for _, e := range s.entries[:min(len(s.entries), shownEntries)] {
			p.entry(e, !shared)
		}
		if len(s.entries) > shownEntries {
			p.more(s.entries[shownEntries:])
		}
	}
	if shared {
		p.wrap("  "+p.paint(dim, "fix")+" ", 6, fix)
	}
}

// accepted says in short what somebody answers for.
func (p *page) accepted(b block) {
	for _, s := range b.shapes {
		for _, e := range s.entries {
			f := e.findings[0]
			p.wrap("  ", 2, f.Message)
			until := ""
			if f.Accepted.Until != "" {
				until = " until " + f.Accepted.Until
			}
			p.aside("accepted", fmt.Sprintf("by %s%s: %s (%s)", f.Accepted.By, until, f.Accepted.Reason, f.Accepted.Cell))
		}
	}
}

// entry tells one finding, or several that are told as one.
func (p *page) entry(e entry, withFix bool) {
	f := e.findings[0]
	severity := f.Severity.String()
	style := [...]string{blue, yellow, red}[f.Severity]
	label := "  " + p.paint(style, severity) + " "
	p.wrap(label, utf8.RuneCountInString(severity)+3, e.message())
	switch {
	case e.row != (cell.Place{}):
		p.tellRow(&e)
	case len(e.findings) > 1 && f.Region == nil:
		p.aside("at", cellList([]entry{e}))
	default:
		for _, c := range f.Cells {
			p.cell(c)
		}
	}
	switch {
	case e.platforms() && e.row == (cell.Place{}):
		p.tellPlatforms(e.findings)
	case f.Region != nil && e.row == (cell.Place{}):
		p.region(f.Region.Open())
	}
	if withFix && f.Fix != "" {
		p.aside("fix", f.Fix)
	}
	if words := f.Following(); words != "" {
		p.aside("follows", words)
	}
}

func (p *page) cell(c finding.Cell) {
	if c.Sheet == nil {
		return
	}
	words := c.Place.String()
	if c.Note != "" {
		words += ": " + c.Note
	}
	p.aside("at", words)
}

// more counts what is left out of a shape and says where the first of it stands.
func (p *page) more(rest []entry) {
	n := 0
	for _, e := range rest {
		n += len(e.findings)
	}
	words := fmt.Sprintf("+%d more like these", n)
	if cells := cellList(rest); cells != "" {
		words += ": " + cells
	}
	p.wrap("  ", 2, words)
}

// cellList lists the first cell of each finding, naming a sheet once in a row.
func cellList(entries []entry) string {
	var words []string
	var last *cell.Sheet
	var told cell.Place
	total := 0
	for _, e := range entries {
		for _, f := range e.findings {
			if len(f.Cells) == 0 || f.Cells[0].Sheet == nil || f.Region != nil && f.Cells[0].Place == told {
				continue
			}
			told = f.Cells[0].Place
			if total++; total > shownCells {
				continue
			}
			at := f.Cells[0].Place
			if at.Sheet == last && at.Pos != (cell.Pos{}) {
				words = append(words, at.Pos.String())
			} else {
				words = append(words, at.String())
			}
			last = at.Sheet
		}
	}
	if total > shownCells {
		words = append(words, fmt.Sprintf("+%d more", total-shownCells))
	}
	return strings.Join(words, ", ")
}

// howMany says how many vehicles there are in a region that can be counted.
func howMany(r *finding.Region) string {
	return count(r.Configurations.String(), "configuration") + ", " + road(r.OnTheRoad) + " on the road"
}

func (p *page) region(r *finding.Region) {
	if !r.Exact {
		p.aside("vehicles", "too irregular to be counted or listed")
	} else {
		p.aside("vehicles", howMany(r))
		for _, b := range r.Where[:min(len(r.Where), shownBoxes)] {
			p.aside("where", b.String())
		}
		if n := len(r.Where) - shownBoxes; n == 1 {
			p.aside("where", r.Where[shownBoxes].String())
		} else if n > 1 {
			p.aside("", fmt.Sprintf("+%d more boxes", n))
		}
		if r.Rest != nil && r.Rest.Sign() > 0 {
			p.aside("", "and "+count(r.Rest.String(), "configuration")+" outside all boxes listed")
		}
	}
	if r.Example != nil {
		p.aside("example", r.Example.String())
	}
}

// aside writes a detail under a finding.
func (p *page) aside(label, words string) {
	const width = 9 // of the longest label and a blank
	p.wrap("      "+p.paint(dim, fmt.Sprintf("%-*s", width, label)), 6+width, words)
}

// road says a share of the vehicles for people: to two places where it does not end
// before.
func road(r *big.Rat) string {
	if r == nil {
		return "0"
	}
	if places, ends := r.FloatPrec(); ends && places <= 2 {
		return r.FloatString(places)
	}
	return "about " + strings.TrimRight(strings.TrimRight(r.FloatString(2), "0"), ".")
}
