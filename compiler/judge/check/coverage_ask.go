package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

var coverageAsk = &Check{
	Kind: finding.Kind{Code: finding.CoverageAsk, Severity: "note",
		Summary: "vehicles for which the guide sends the reader to measure or to ask",
		Doc:     "The part depends on what no trait records. Where many callers ask, a trait that can be seen on the vehicle is worth adding.",
		Before:  "Fitment!C5  ask which bracket the body builder fitted",
		After:   "Fitment!C5  HD-24   (with a trait Damper bracket)"},
	Position: func(p *Position) { coverageNote(p, finding.CoverageAsk, model.Ask, "the reader has to ask about") },
}
