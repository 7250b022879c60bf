// Package report tells findings: as text for people, as JSON for machines, and in the
// formats that code hosts and build servers show.
//
// A format is a Formatter; New gives one by its name. Text begins with what was read,
// goes from what is worth knowing to what must be mended, so that the most important
// stands last, where a terminal stops, and ends with one line that counts. The same
// result gives the same bytes.
package report

import (
	"fmt"
	"io"
	"strings"

	"ferrule/compiler"
	"ferrule/compiler/release/staff"
	"ferrule/out/data"
	"ferrule/schema/word"
)

// Formatter writes all that a run found.
type Formatter interface {
	Format(w io.Writer, r *compiler.Result) error
}

// Options of a report; only text uses them.
type Options struct {
	Width int  // columns that a line may take; 0 is 80
	Color bool // ANSI colours, for terminals
}

// Formats are the names that New takes.
func Formats() []string { return []string{"text", "json", "jsonl", "sarif", "junit", "github"} }

// New gives the formatter of that name. The error is a sentence for the user.
func New(name string, o Options) (Formatter, error) {
	switch name {
	case "text":
		return newText(o), nil
	case "json":
		return machine{}, nil
	case "jsonl":
		return lines{}, nil
	case "sarif":
		return sarif{}, nil
	case "junit":
		return junit{}, nil
	case "github":
		return github{}, nil
	}
	known := Formats()
	last := len(known) - 1
	return nil, fmt.Errorf("there is no format %q%s, write %s or %s", name,
		word.DidYouMean(name, known), strings.Join(known[:last], ", "), known[last])
}

// machine writes findings.json.
type machine struct{}

func (machine) Format(w io.Writer, r *compiler.Result) error {
	return staff.Findings(w, r.Findings, r.Since)
}

// lines writes JSON Lines (jsonlines.org): a finding a line, as findings.json has it.
type lines struct{}

func (lines) Format(w io.Writer, r *compiler.Result) error { return data.FindingLines(w, r.Findings) }
