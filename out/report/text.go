package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/kinds"
)

// text is the report for people.
type text struct{ Options }

func newText(o Options) text {
	if o.Width <= 0 {
		o.Width = 80
	}
	return text{o}
}

// narrowest is the width below which nothing is wrapped more.
const narrowest = 40

func (t text) Format(w io.Writer, r *compiler.Result) error {
	p := &page{w: w, width: max(t.Width, narrowest), color: t.Color}
	p.read(&r.Read)
	for _, b := range blocks(fresh(r.Findings)) {
		p.line("")
		p.block(b)
	}
	p.known(r)
	p.line("")
	if !r.Whole {
		p.wrap("", 0, "not all workbooks could be read whole, so nothing is said about coverage")
	}
	p.title(total(r))
	return p.err
}

// total counts in one line, and says what was held against what.
func total(r *compiler.Result) string {
	s := finding.Summarise(r.Findings)
	if r.Since == "" {
		return Summary(s)
	}
	return fmt.Sprintf("new since %s: %s; known: %d", r.Since, Summary(s), s.Known)
}

// fresh leaves out what is known and not accepted.
func fresh(fs []*finding.Finding) []*finding.Finding {
	return slices.DeleteFunc(slices.Clone(fs), func(f *finding.Finding) bool { return f.Known && f.Accepted == nil })
}

// known counts what an earlier release has too, by code; the other formats tell it.
func (p *page) known(r *compiler.Result) {
	var words []string
	for _, k := range kinds.All() {
		n := 0
		for _, f := range r.Findings {
			if f.Known && f.Code == k.Code {
				n++
			}
		}
		if n > 0 {
			words = append(words, fmt.Sprintf("%s %d", k.Code, n))
		}
	}
	if words != nil {
		p.line("")
		p.wrap(p.paint(bold, "known")+" ", 6, fmt.Sprintf("(%s has them too): %s", r.Since, strings.Join(words, ", ")))
	}
}

// Summary says the counts in one line: `2 errors, 3 warnings, 5 notes, 1 accepted`.
func Summary(s finding.Summary) string {
	return fmt.Sprintf("%s, %s, %s, %d accepted",
		count(s.Errors, "error"), count(s.Warnings, "warning"), count(s.Notes, "note"), s.Accepted)
}

// read says what was read: files, sheets, rows, and sheets left alone.
func (p *page) read(r *intake.Read) {
	sheets, rows := 0, 0
	for _, f := range r.Files {
		for _, s := range f.Sheets {
			if s.Kind != "" {
				sheets++
				rows += s.Rows
			}
		}
	}
	p.line(fmt.Sprintf("read %s: %s, %s", count(len(r.Files), "workbook"), count(sheets, "sheet"), count(rows, "row")))
	for i := range r.Files {
		p.file(&r.Files[i])
	}
}

func (p *page) file(f *intake.File) {
	var used, alone []string
	for _, s := range f.Sheets {
		name := s.Name
		if s.Hidden {
			name += " (hidden)"
		}
		if s.Kind == "" {
			alone = append(alone, name)
		} else {
			used = append(used, fmt.Sprintf("%s %d", name, s.Rows))
		}
	}
	state := ""
	if f.Failed {
		state = ": could not be read whole"
	}
	p.wrap("  ", 2, f.Name+state)
	if len(used) > 0 {
		p.wrap("    ", 4, "rows: "+strings.Join(used, ", "))
	}
	if len(alone) > 0 {
		p.wrap("    ", 4, "left alone: "+strings.Join(alone, ", "))
	}
}
