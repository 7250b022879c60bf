package report

import (
	"fmt"
	"io"
	"strings"

	"ferrule/compiler/propose"
	"ferrule/schema"
)

// Layout writes what a proposal holds for people: each sheet with what it is taken for, what is
// drafted, and what to look at first.
func Layout(w io.Writer, file string, p *propose.Proposal, o Options) error {
	t := newPage(w, o)
	t.title(file)
	filled, claimed := 0, 0
	for _, s := range p.Seen {
		t.wrap("  ", 4, sheetSeen(s))
		if !s.Known {
			filled, claimed = filled+s.Filled, claimed+s.Claimed
		}
	}
	t.line("")
	t.wrap("", 0, fmt.Sprintf("%s of Layouts proposed, %d of them unsure; %d of %s used or left out on purpose at once; %s",
		count(len(p.Rules), "row"), p.Unsure(), claimed, count(filled, "filled cell"), count(len(p.Remarks)+len(p.Told), "remark")))
	if words := drafted(p); words != "" {
		t.wrap("", 0, "drafted: "+words)
	}
	for _, r := range p.Remarks {
		t.remark(propose.Places(r.Cells, r.N), r.Says, r.Means, r.Write)
	}
	for _, one := range p.Told {
		t.remark(propose.Places(one.Cells, len(one.Cells)), "", one.Message, one.Fix)
	}
	return t.err
}

func sheetSeen(s propose.Seen) string {
	if s.Known {
		return s.Sheet + ": " + s.What
	}
	return fmt.Sprintf("%s: %s; %d of %s read or left out", s.Sheet, s.What, s.Claimed, count(s.Filled, "filled cell"))
}

func drafted(p *propose.Proposal) string {
	var out []string
	for _, d := range p.Drafts {
		out = append(out, count(len(d.Rows), "row")+" of "+schema.Title(d.Kind))
	}
	return strings.Join(out, ", ")
}

// remark tells one thing to look at.
func (p *page) remark(places, says, means, write string) {
	p.line("")
	head := places
	if says != "" {
		head = strings.TrimPrefix(places+": "+says, ": ")
	}
	p.wrap("", 2, head)
	p.wrap("  ", 2, means)
	p.wrap("  write: ", 9, write)
}
