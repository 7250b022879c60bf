package report

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/release/compare"
	"ferrule/out/data"
)

// Bounds of a summary in Markdown: code hosts refuse comments of more than 65,536
// characters, and nobody reads that much.
const (
	mostMarkdown  = 60_000 // bytes
	mostInDetail  = 40     // differences
	markdownBoxes = 3
)

// diffMarkdown tells a comparison for a pull request: a short table, then the most
// important differences. Whatever comes from a workbook stands in code spans, in which
// nothing is markup, a link or a mention.
func diffMarkdown(w io.Writer, c *data.Compared) error {
	m := &markdown{}
	m.line("**Fitment:** %s", outcome(c.Diff))
	m.line("")
	m.line("old %s  ", quote(code).state(c.Old))
	m.line("new %s", quote(code).state(c.New))
	m.table(c.Diff)
	entries := m.entries(c.Diff)
	for i, e := range entries {
		if i == mostInDetail || m.Len()+len(e) > mostMarkdown {
			m.line("")
			m.line("+%d more, which `ferrule diff --format json` tells", len(entries)-i)
			break
		}
		m.WriteString(e)
	}
	_, err := w.Write(m.Bytes())
	return err
}

type markdown struct{ bytes.Buffer }

func (m *markdown) line(format string, args ...any) { fmt.Fprintf(m, format+"\n", args...) }

// table counts what there is of each kind.
func (m *markdown) table(d *compare.Diff) {
	sums := d.Sums()
	if !slices.ContainsFunc(sums[:], func(s compare.Sum) bool { return s.Entries > 0 }) {
		return
	}
	m.line("")
	m.line("| | changes | accepted | configurations | on the road |")
	m.line("| --- | ---: | ---: | ---: | ---: |")
	for k := range slices.Backward(sums[:]) {
		if s := sums[k]; s.Entries > 0 {
			m.line("| %s | %d | %d | %s | %s |", compare.Kind(k), s.Entries, s.Accepted, s.Configurations, road(s.OnTheRoad))
		}
	}
}

// entries gives all differences, each as its own lines, the most important first.
func (m *markdown) entries(d *compare.Diff) []string {
	var out []string
	for i := range d.Irregular {
		out = append(out, "\n- **not compared** "+quote(code).tangled(&d.Irregular[i])+"\n")
	}
	for k := range slices.Backward(make([]struct{}, compare.Kinds)) {
		for i := range d.Changes {
			if c := &d.Changes[i]; int(c.Kind) == k {
				out = append(out, bullet(c.Kind, quote(code).changed(c), c.Region, c))
			}
		}
		for i := range d.Losses {
			if k == int(compare.Unprotected) {
				out = append(out, lossBullet(&d.Losses[i]))
			}
		}
		for i := range d.Fleets {
			if f := &d.Fleets[i]; int(f.Kind) == k {
				out = append(out, bullet(f.Kind, quote(code).moved(f), f.Region, nil))
			}
		}
	}
	for i := range d.Renames {
		out = append(out, "\n- **renamed** "+quote(code).renamed(&d.Renames[i])+"\n")
	}
	for i := range d.Advice {
		out = append(out, "\n- **said differently** "+quote(code).advised(&d.Advice[i])+"\n")
	}
	for i := range d.Splits {
		out = append(out, "\n- **told apart** "+quote(code).parted(&d.Splits[i])+"\n")
	}
	return out
}

// bullet tells one difference; c is nil for vehicles.
func bullet(k compare.Kind, sentence string, r *finding.Region, c *compare.Change) string {
	var m markdown
	m.line("")
	m.line("- **%s** %s  ", k, sentence)
	m.line("  %s, %s on the road", count(r.Configurations.String(), "configuration"), road(r.OnTheRoad))
	for _, b := range r.Where[:min(len(r.Where), markdownBoxes)] {
		m.line("  - %s", code(b.String()))
	}
	if n := len(r.Where) - markdownBoxes; n > 0 {
		m.line("  - +%d more boxes", n)
	}
	if r.Rest != nil && r.Rest.Sign() > 0 {
		m.line("  - and %s outside all boxes listed", count(r.Rest.String(), "configuration"))
	}
	m.line("  - for example %s", code(r.Example.String()))
	if c == nil {
		return m.String()
	}
	for _, side := range []struct {
		name   string
		answer compare.Answer
	}{{"old", c.Old}, {"new", c.New}} {
		if len(side.answer.Cells) > 0 {
			m.line("  - %s cells %s", side.name, code(strings.Join(cells(side.answer, shownCells), ", ")))
		}
	}
	if c.Accepted != nil {
		m.line("  - accepted %s", code(acceptedBy(c.Accepted)))
	}
	return m.String()
}

// longest is the most letters of one text in Markdown.
const longest = 500

// code puts a text into a code span. White space is one blank there, and a run of
// backticks inside asks for a longer one around it (CommonMark 0.31, 6.1).
func code(s string) string {
	s = clean(s)
	if r := []rune(s); len(r) > longest {
		s = string(r[:longest]) + "…"
	}
	run, most := 0, 0
	for _, r := range s {
		run++
		if r != '`' {
			run = 0
		}
		most = max(most, run)
	}
	fence := strings.Repeat("`", most+1)
	if strings.HasPrefix(s, "`") || strings.HasSuffix(s, "`") {
		s = " " + s + " "
	}
	return fence + s + fence
}
