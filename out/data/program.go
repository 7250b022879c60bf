package data

import (
	"io"

	"ferrule/compiler/finding"
	"ferrule/compiler/wire"
)

// Version writes which version of the program this is.
func Version(w io.Writer, version string) error {
	return wire.Write(w, struct {
		Version string `json:"version"`
	}{version})
}

type codesFile struct {
	Codes []code `json:"codes"`
}

// code says what a finding means.
type code struct {
	Code     string `json:"code"`
	Severity string `json:"severity"`
	Summary  string `json:"summary"`
	Meaning  string `json:"meaning"`
	Before   string `json:"before,omitempty"`
	After    string `json:"after,omitempty"`
}

// Codes writes what findings mean.
func Codes(w io.Writer, kinds []finding.Kind) error {
	return wire.Write(w, codesFile{wire.Each(kinds, func(k finding.Kind) code {
		return code{string(k.Code), k.Severity, k.Summary, k.Doc, k.Before, k.After}
	})})
}
