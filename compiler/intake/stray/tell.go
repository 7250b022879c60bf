package stray

import (
	"fmt"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// shown is how many cells of one finding are named.
const shown = 20

// tell reports what was set aside: what several rows are alike is told once, with the
// cells of all of them.
func (s *search) tell(aside map[int]bool, report func(*finding.Finding)) {
	s.say(finding.Warning, s.found[repeat], "the row repeats the header, so it is set aside", "%d rows repeat the header, so they are set aside",
		"delete it; a spreadsheet program can print the header on every page", report)
	if rows := s.found[another]; len(rows) > 0 {
		below := len(s.Records) - rows[0] - 1
		f := s.finding(finding.Error, rows[:1], fmt.Sprintf("the row is the header of another table, so it and the rows below it (%d) are not read", below), report)
		f.Constant = "a row is the header of another table, so what stands below it is not read"
		f.Fix = "move the table to a sheet of its own, whose name begins with its kind or with _"
	}
	s.say(finding.Warning, s.found[total], fmt.Sprintf("the row that begins with %q is a total, so it is set aside", s.first(total)), "%d rows are totals, so they are set aside",
		"delete it, or keep it on a sheet whose name starts with _", report)
	end := s.end(aside)
	var notes, heads []int
	for _, i := range s.found[lone] {
		if i >= end {
			notes = append(notes, i)
		} else {
			heads = append(heads, i)
		}
	}
	s.headings(heads, report)
	s.notes(append(notes, s.found[mark]...), end, report)
}

// end gives the first record behind the last one that is a row.
func (s *search) end(aside map[int]bool) int {
	for i := len(s.Records); i > 0; i-- {
		if !aside[i-1] {
			return i
		}
	}
	return 0
}

func (s *search) headings(rows []int, report func(*finding.Finding)) {
	if len(rows) == 0 {
		return
	}
	f := &s.Records[rows[0]].Fields[0]
	under := ""
	if c := s.Columns[f.Column].Name; c != "" {
		under = " (under " + c + ")"
	}
	one := fmt.Sprintf("only %q%s stands in this row, so it is taken for a heading between the rows and set aside", short(f.Text), under)
	s.say(finding.Error, rows, one, "%d rows hold one text and nothing else, so they are taken for headings between the rows and set aside",
		"delete it and write the group in a column of its own, or move it above the header; if it is a row of the table, fill in "+s.needs(f), report)
}

func (s *search) notes(rows []int, end int, report func(*finding.Finding)) {
	if len(rows) == 0 {
		return
	}
	where := "below the table"
	if rows[len(rows)-1] < end {
		where = "among the rows"
	}
	f := &s.Records[rows[0]].Fields[0]
	s.say(finding.Error, rows, fmt.Sprintf("the row is a note %s (%q), so it is set aside and nothing that it says is read", where, short(f.Text)),
		"%d rows are notes "+where+", so they are set aside and nothing that they say is read",
		"write what it says into the rows that it is about (under Note or Cautions, or as a condition), or move it above the header or to a sheet whose name starts with _; if it is a row of the table, fill in "+s.needs(f), report)
}

// needs names what a row of the kind holds beside the cell.
func (s *search) needs(f *table.Field) string {
	var names []string
	for _, c := range schema.Columns(s.Kind) {
		if c.Required && c.Name != s.Columns[f.Column].Name {
			names = append(names, c.Name)
		}
	}
	switch {
	case len(names) > 0:
		return strings.Join(names, " and ")
	case s.Kind == schema.Parts:
		return "Name and Family"
	case s.Kind == schema.Positions:
		return "Quantity and Coverage"
	}
	return "the rest of it"
}

func (s *search) first(is what) string {
	if len(s.found[is]) == 0 {
		return ""
	}
	return short(s.Records[s.found[is][0]].Fields[0].Text)
}

// say reports rows that are one thing: one, or how many.
func (s *search) say(severity finding.Severity, rows []int, one, many, fix string, report func(*finding.Finding)) {
	if len(rows) == 0 {
		return
	}
	words := one
	if len(rows) > 1 {
		words = fmt.Sprintf(many, len(rows))
		fix = strings.Replace(fix, "delete it", "delete them", 1)
	}
	f := s.finding(severity, rows, words, report)
	f.Constant, f.Fix = one, fix
}

func (s *search) finding(severity finding.Severity, rows []int, words string, report func(*finding.Finding)) *finding.Finding {
	var places []cell.Place
	for _, i := range rows[:min(len(rows), shown)] {
		places = append(places, s.First(&s.Records[i]))
	}
	f := &finding.Finding{Code: finding.RowAside, Severity: severity, Message: words, Cells: finding.At(places...)}
	report(f)
	return f
}

func short(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:60]) + "…"
	}
	return s
}
