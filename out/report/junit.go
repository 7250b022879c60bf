package report

import (
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"ferrule/compiler"
	"ferrule/compiler/finding"
)

// junit writes the XML that build servers show as tests, as the schema in testdata has
// it: a suite for each code, a case for each finding. Errors and warnings are failures,
// accepted findings and those that an earlier release has too are skipped, notes pass
// with what they say as output. A catalogue without findings is
// one case that passes, since servers take an empty file for a fault.
type junit struct{}

type junitSuites struct {
	XMLName  xml.Name     `xml:"testsuites"`
	Name     string       `xml:"name,attr"`
	Tests    int          `xml:"tests,attr"`
	Failures int          `xml:"failures,attr"`
	Suites   []junitSuite `xml:"testsuite"`
}

type junitSuite struct {
	Name     string     `xml:"name,attr"`
	Tests    int        `xml:"tests,attr"`
	Failures int        `xml:"failures,attr"`
	Errors   int        `xml:"errors,attr"`
	Skipped  int        `xml:"skipped,attr"`
	Cases    junitCases `xml:"testcase"`
}

// junitCases are made one by one as they are written: all of them at once would be several times
// the findings.
type junitCases struct {
	findings []*finding.Finding
	since    string
}

// MarshalXML writes each case as the element that it is asked for.
func (c junitCases) MarshalXML(e *xml.Encoder, start xml.StartElement) error {
	for i, f := range c.findings {
		if err := e.EncodeElement(junitCaseOf(i+1, f, c.since), start); err != nil {
			return err
		}
	}
	if len(c.findings) == 0 {
		return e.EncodeElement(junitCase{Class: "check", Name: "nothing found"}, start)
	}
	return nil
}

type junitCase struct {
	Class   string        `xml:"classname,attr"`
	Name    string        `xml:"name,attr"`
	Skipped *junitSkipped `xml:"skipped"`
	Failure *junitMessage `xml:"failure"`
	Output  string        `xml:"system-out,omitempty"`
}

// junitSkipped says why in its text: older schemas know no attribute for it.
type junitSkipped struct {
	Text string `xml:",chardata"`
}

type junitMessage struct {
	Type    string `xml:"type,attr,omitempty"`
	Message string `xml:"message,attr"`
	Text    string `xml:",chardata"`
}

func (junit) Format(w io.Writer, r *compiler.Result) error {
	all := junitSuites{Name: "ferrule", Suites: junitSuitesOf(r)}
	for _, s := range all.Suites {
		all.Tests += s.Tests
		all.Failures += s.Failures
	}
	if _, err := io.WriteString(w, xml.Header); err != nil {
		return err
	}
	e := xml.NewEncoder(w)
	e.Indent("", "  ")
	if err := e.Encode(all); err != nil {
		return err
	}
	_, err := io.WriteString(w, "\n")
	return err
}

// junitSuitesOf gives a suite for each code, in the order in which they come up.
func junitSuitesOf(r *compiler.Result) []junitSuite {
	if len(r.Findings) == 0 {
		return []junitSuite{{Name: "check", Tests: 1}}
	}
	var all []junitSuite
	index := map[finding.Code]int{}
	for _, f := range r.Findings {
		i, known := index[f.Code]
		if !known {
			i = len(all)
			index[f.Code] = i
			all = append(all, junitSuite{Name: string(f.Code), Cases: junitCases{since: r.Since}})
		}
		all[i].add(f)
	}
	return all
}

func (s *junitSuite) add(f *finding.Finding) {
	switch {
	case f.Accepted != nil || f.Known:
		s.Skipped++
	case f.Severity != finding.Note:
		s.Failures++
	}
	s.Tests++
	s.Cases.findings = append(s.Cases.findings, f)
}

func junitCaseOf(number int, f *finding.Finding, since string) junitCase {
	c := junitCase{Class: string(f.Code), Name: fmt.Sprintf("%d: %s", number, clean(f.Message))}
	text := clean(sentence(f))
	switch {
	case f.Accepted != nil:
		c.Skipped = &junitSkipped{clean("accepted by " + f.Accepted.By + ": " + f.Accepted.Reason)}
	case f.Known:
		c.Skipped = &junitSkipped{clean("known: " + since + " has it too")}
	case f.Severity == finding.Note:
		c.Output = text
	default:
		c.Failure = &junitMessage{f.Severity.String(), clean(f.Message), text + places(f)}
	}
	return c
}

// places lists the cells, one a line.
func places(f *finding.Finding) string {
	var b strings.Builder
	for _, c := range f.Cells {
		if c.Sheet != nil {
			b.WriteString("\n" + clean(c.Place.String()))
		}
	}
	return b.String()
}
