package data

import (
	"encoding/json"
	"io"

	"ferrule/compiler/finding"
	"ferrule/compiler/release/staff"
)

// FindingLines writes one finding a line, as findings.json has it.
func FindingLines(w io.Writer, fs []*finding.Finding) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	for _, f := range fs {
		if err := e.Encode(staff.FindingOf(f)); err != nil {
			return err
		}
	}
	return nil
}
