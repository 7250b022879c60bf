package report

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// A cell at fault is told once, however many platforms it is wrong on, and so is a row
// that is held against many cells. The other formats have a finding for each platform,
// part and cell, which is what acceptances and comparisons go by.

// behindMany is from how many cells on the row that is held against them is told in
// their place: then it is the likelier fault.
const behindMany = 6

// byPlatform joins findings that blame the same cells for the same on several platforms.
func byPlatform(in []shape) []shape {
	var out []shape
	at := map[string]int{}
	for _, s := range in {
		f := s.entries[0].findings[0]
		if !blames(f) {
			out = append(out, s)
			continue
		}
		key := sameFault(f)
		i, known := at[key]
		if !known {
			at[key] = len(out)
			out = append(out, s)
			continue
		}
		e := &out[i].entries[0]
		e.findings = append(e.findings, f)
	}
	return out
}

// blames tells whether a finding about vehicles is the fault of its cells, and not of
// something that no cell says of its platform.
func blames(f *finding.Finding) bool {
	if f.Region == nil || !f.Region.Exact || f.Accepted != nil || len(f.Cells) == 0 {
		return false
	}
	switch f.Code {
	case finding.CoverageGap, finding.FactMissing, finding.SideMissing:
		return false
	}
	return true
}

// sameFault is equal for findings that differ in their platform and its vehicles only.
func sameFault(f *finding.Finding) string {
	words := []string{f.Position, f.Part, inMessage(f, ""), f.Fix, f.Following()}
	for _, c := range f.Cells {
		words = append(words, c.Place.String(), c.Note)
	}
	return strings.Join(words, "\x00")
}

// inMessage gives the message with other platforms in place of the finding's own.
func inMessage(f *finding.Finding, platforms string) string {
	const of = "vehicles of "
	return strings.Replace(f.Message, of+f.Platform, of+platforms, 1)
}

// message says what an entry tells, with all of its platforms.
func (e *entry) message() string {
	f := e.findings[0]
	switch {
	case e.row != (cell.Place{}):
		return fmt.Sprintf("one row stands against %s: look there first, whether it says more than is meant", count(len(firsts(e.findings)), "cell"))
	case !e.platforms():
		return f.Message
	}
	var names []string
	for _, f := range e.findings {
		names = append(names, f.Platform)
	}
	return inMessage(f, word.List(names, "and"))
}

// platforms tells whether an entry is one fault on several platforms.
func (e *entry) platforms() bool { return len(e.findings) > 1 && e.findings[0].Region != nil }

// firsts gives the first cells of findings, each once.
func firsts(fs []*finding.Finding) []cell.Place {
	var out []cell.Place
	for _, f := range fs {
		if len(f.Cells) > 0 && !slices.Contains(out, f.Cells[0].Place) {
			out = append(out, f.Cells[0].Place)
		}
	}
	return out
}

// against gives the row that a finding holds against its first cell; false where the code
// knows none.
func against(f *finding.Finding) (cell.Place, bool) {
	switch f.Code {
	case finding.PartForbidden, finding.CompanionMissing, finding.CompanionForbidden, finding.LimitBroken, finding.LineSizeMismatch:
		n := len(f.Cells)
		return f.Cells[n-1].Place, blames(f) && n > 1
	}
	return cell.Place{}, false
}

// byRow joins what one row is held against at many cells.
func byRow(in []shape) []shape {
	of := map[cell.Place][]*finding.Finding{}
	for _, s := range in {
		for _, f := range s.entries[0].findings {
			if at, ok := against(f); ok {
				of[at] = append(of[at], f)
			}
		}
	}
	told := map[cell.Place]bool{}
	var out []shape
	for _, s := range in {
		at, ok := against(s.entries[0].findings[0])
		switch {
		case !ok || len(firsts(of[at])) < behindMany:
			out = append(out, s)
		case !told[at]:
			told[at] = true
			out = append(out, shape{[]entry{{findings: of[at], row: at}}})
		}
	}
	return out
}

// tellRow tells what a row is held against, with the first of it as an example.
func (p *page) tellRow(e *entry) {
	p.cell(finding.Cell{Place: e.row})
	p.aside("cells", cellList([]entry{*e}))
	p.aside("such as", e.findings[0].Message)
}

// tellPlatforms says on which vehicles of each platform a fault is.
func (p *page) tellPlatforms(fs []*finding.Finding) {
	for _, f := range fs[:min(len(fs), shownCells)] {
		r := f.Region.Open()
		words := f.Platform + ": " + howMany(r)
		if len(r.Where) > 0 {
			words += ": " + r.Where[0].String()
		}
		if n := len(r.Where) - 1; n > 0 {
			words += fmt.Sprintf(" (+%d more)", n)
		}
		p.aside("vehicles", words)
	}
	if n := len(fs) - shownCells; n > 0 {
		p.aside("", fmt.Sprintf("+%d more platforms", n))
	}
	if r := fs[0].Region.Open(); r.Example != nil {
		p.aside("example", fs[0].Platform+", "+r.Example.String())
	}
}
