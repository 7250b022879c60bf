package desk

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/out/mark"
	"ferrule/out/view"
)

// perPage is how many findings stand on one page, each beside its rows.
const perPage = 60

// findingsPage is the list of findings, filtered.
type findingsPage struct {
	view.Findings
	Severity, Code, Workbook, Platform, Text, New string // what was asked for
	Severities, Codes, Workbooks, Platforms       []string
	HasSince                                      bool
	All, Shown                                    int
	Earlier, Later                                string // queries of the pages before and after, "" for none
	Marked                                        []copyLink
}

func (d *Desk) findings(s *state, r *http.Request) (any, error) {
	q := r.URL.Query()
	p := &findingsPage{Severity: q.Get("severity"), Code: q.Get("code"), Workbook: q.Get("workbook"), Platform: q.Get("platform"),
		Text: q.Get("text"), New: q.Get("new"), HasSince: s.res.Since != ""}
	p.Summary, p.Since, p.All = finding.Summarise(s.res.Findings), s.res.Since, len(s.res.Findings)
	p.choices(s.res.Findings)
	p.Marked = markable(s.res)
	var met []*finding.Finding
	for _, f := range s.res.Findings {
		if p.meets(f) {
			met = append(met, f)
		}
	}
	p.Shown = len(met)
	from := min(number(q.Get("from")), len(met)) / perPage * perPage
	list := met[from:min(len(met), from+perPage)]
	turn := func(to int) string {
		q.Set("from", itoa(to))
		return "findings?" + q.Encode()
	}
	if from > 0 {
		p.Earlier = turn(from - perPage)
	}
	if from+perPage < len(met) {
		p.Later = turn(from + perPage)
	}
	p.List = view.List(s.res, list, s.same)
	return p, nil
}

// markable lists the workbooks of which there is a marked copy.
func markable(res *compiler.Result) (out []copyLink) {
	var names []string
	for _, f := range res.Read.Files {
		names = append(names, f.Name)
	}
	all := res.Findings
	if res.Since != "" {
		all = asNew(all) // what the release has too is marked all the same, as the command does
	}
	for _, b := range mark.Books(names, all) {
		if b.Markable() {
			out = append(out, copyLink{Workbook: b.Name, Link: "marked?" + url.Values{"workbook": {b.Name}}.Encode()})
		}
	}
	return out
}

func asNew(fs []*finding.Finding) []*finding.Finding {
	out := make([]*finding.Finding, len(fs))
	for i, f := range fs {
		now := *f
		now.Known = false
		out[i] = &now
	}
	return out
}

// choices gathers what findings can be filtered by.
func (p *findingsPage) choices(fs []*finding.Finding) {
	add := func(list *[]string, text string) {
		if at, found := slices.BinarySearch(*list, text); !found && text != "" {
			*list = slices.Insert(*list, at, text)
		}
	}
	p.Severities = []string{"error", "warning", "note"}
	for _, f := range fs {
		add(&p.Codes, string(f.Code))
		add(&p.Platforms, f.Platform)
		for _, c := range f.Cells {
			if c.Sheet != nil {
				add(&p.Workbooks, c.Sheet.File)
			}
		}
	}
}

func (p *findingsPage) meets(f *finding.Finding) bool {
	in := func(c finding.Cell) bool { return c.Sheet != nil && c.Sheet.File == p.Workbook }
	return (p.Severity == "" || f.Severity.String() == p.Severity) &&
		(p.Code == "" || string(f.Code) == p.Code) &&
		(p.Platform == "" || f.Platform == p.Platform) &&
		(p.Workbook == "" || slices.ContainsFunc(f.Cells, in)) &&
		(p.New == "" || !f.Known && f.Accepted == nil) &&
		(p.Text == "" || strings.Contains(strings.ToLower(f.Message), strings.ToLower(p.Text)))
}
