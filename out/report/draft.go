package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept/draft"
)

// Rows writes drafted rows as text to paste into a sheet: a header, and a tab between
// cells.
func Rows(w io.Writer, d *draft.Draft) error {
	c := csv.NewWriter(w)
	c.Comma = '\t'
	return c.WriteAll(append([][]string{d.Columns}, d.Rows...))
}

// shownDrafted is how many findings of a code are told one by one.
const shownDrafted = 10

// Drafted tells what the rows of a draft accept, and what was left out.
func Drafted(w io.Writer, d *draft.Draft, o Options) error {
	p := newPage(w, o)
	configurations, vehicles := d.Configurations()
	p.wrap("", 0, fmt.Sprintf("accepted: %s in %s; %s, %s on the road in all",
		count(len(d.Entries), "finding"), count(len(d.Rows), "row"),
		count(configurations.String(), "configuration"), road(vehicles)))
	for i := 0; i < len(d.Entries); {
		n := i
		for n < len(d.Entries) && d.Entries[n].Finding.Code == d.Entries[i].Finding.Code {
			n++
		}
		p.drafted(d.Entries[i:n])
		i = n
	}
	for _, l := range d.Left {
		p.wrap("left out: ", 10, fmt.Sprintf("%s (%s): %s", l.Finding.Code, spot(l.Finding), l.Why))
	}
	return p.err
}

// drafted tells the findings of one code.
func (p *page) drafted(entries []draft.Entry) {
	for i, e := range entries {
		if i == shownDrafted {
			p.wrap("  ", 2, fmt.Sprintf("+%d more %s", len(entries)-i, e.Finding.Code))
			return
		}
		p.wrap("  ", 4, fmt.Sprintf("%s: %s (%s)", e.Finding.Code, bearing(e.Finding), count(e.Rows, "row")))
	}
}

// spot says which finding is meant: by its first cell, or what it is about.
func spot(f *finding.Finding) string {
	if len(f.Cells) > 0 && f.Cells[0].Sheet != nil {
		return f.Cells[0].Place.String()
	}
	return bearing(f)
}

// bearing says what a finding is about in a few words.
func bearing(f *finding.Finding) string {
	var words []string
	for _, w := range []string{f.Platform, f.Position, f.Part} {
		if w != "" {
			words = append(words, w)
		}
	}
	switch {
	case f.Region != nil && f.Region.Exact:
		words = append(words, howMany(f.Region.Open()))
	case len(words) == 0:
		words = append(words, f.Message)
	}
	return strings.Join(words, ", ")
}
