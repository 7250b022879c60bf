// Package kinds lists all kinds of findings.
package kinds

import (
	"slices"
	"strings"

	"ferrule/compiler/bind"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/intake/drag"
	"ferrule/compiler/intake/sorted"
	"ferrule/compiler/intake/stray"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/check"
	"ferrule/compiler/release/compare"
)

// All describes every code, in alphabetical order.
func All() []finding.Kind {
	kinds := slices.Concat(intake.Kinds(), stray.Kinds(), bind.Kinds(), check.Kinds(), drag.Kinds(), sorted.Kinds(), accept.Kinds(), compare.GuardKinds(), pictures())
	slices.SortFunc(kinds, func(a, b finding.Kind) int { return strings.Compare(string(a.Code), string(b.Code)) })
	return kinds
}
