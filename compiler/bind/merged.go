package bind

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// mergedName reports one merged cell that declares a name for several rows which differ.
func (b *binder) mergedName(what, name string, at cell.Place) {
	if cause := b.merged[at]; cause != nil {
		b.overlaid(what, cause)
		return
	}
	if b.merged == nil {
		b.merged = map[cell.Place]*finding.Finding{}
	}
	b.merged[at] = &finding.Finding{Code: finding.DeclaredTwice, Severity: finding.Error,
		Message: fmt.Sprintf("one merged cell says %s for several rows that differ, so all of them are %s %s; the first one holds", name, what, name),
		Cells:   finding.At(at),
		Fix:     "unmerge the cell and write into each row what it is about"}
	b.Report(b.merged[at])
	b.overlaid(what, b.merged[at])
}

// overlaid remembers that a merged cell has covered the number of a part.
func (b *binder) overlaid(what string, cause *finding.Finding) {
	if what == "part" {
		b.covered = append(b.covered, cause)
	}
}

// lay counts a number that nothing declares under the merged cell that has probably covered
// it: as many numbers as cells were covered. It gives whether it has.
func (b *binder) lay(number string) bool {
	key := word.Fold(number)
	cause := b.laid[key]
	if cause == nil && len(b.laid) < len(b.covered) {
		if b.laid == nil {
			b.laid = map[string]*finding.Finding{}
		}
		cause = b.covered[len(b.laid)]
		b.laid[key] = cause
	}
	if cause == nil {
		return false
	}
	cause.Owe(finding.PartUnknown, 1)
	return true
}
