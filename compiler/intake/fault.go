package intake

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
)

// asFinding tells a fault of a sheet.
func asFinding(f *table.Fault) *finding.Finding {
	code, severity := graded(f.What)
	cells := finding.At(f.Cells...)
	for i, note := range f.Notes {
		cells[i].Note = note
	}
	return &finding.Finding{Code: code, Severity: severity, Message: f.Message, Constant: f.Constant, Cells: cells, Fix: f.Fix, Meant: f.Meant}
}

// graded gives the code and the severity of a kind of fault. A value that cannot be what was
// typed is an error, and one that is read all the same a warning.
func graded(w table.What) (finding.Code, finding.Severity) {
	switch w {
	case table.NoHeader:
		return finding.ColumnMissing, finding.Error
	case table.HeaderTwice:
		return finding.HeaderDuplicate, finding.Error
	case table.HeaderBlank:
		return finding.HeaderBlank, finding.Warning
	case table.Covered:
		return finding.CellCovered, finding.Warning
	case table.DateMangled:
		return finding.CellDateMangled, finding.Error
	case table.NumberMangled:
		return finding.CellNumberMangled, finding.Error
	case table.FormulaStale:
		return finding.CellFormulaStale, finding.Error
	case table.Failed:
		return finding.CellError, finding.Error
	case table.Lookalike:
		return finding.CellLookalike, finding.Warning
	case table.ShownOtherwise:
		return finding.CellDisplay, finding.Warning
	case table.TruthValue:
		return finding.CellBoolean, finding.Warning
	case table.Struck:
		return finding.CellStruck, finding.Warning
	case table.Commented:
		return finding.CellComment, finding.Note
	case table.Coloured:
		return finding.CellColour, finding.Note
	case table.Longer:
		return finding.RowLonger, finding.Error
	case table.Unread:
		return finding.LayoutMalformed, finding.Error
	case table.Contradicted:
		return finding.LayoutConflict, finding.Error
	case table.Unmatched:
		return finding.LayoutUnmatched, finding.Error
	case table.Idle:
		return finding.LayoutIdle, finding.Warning
	case table.Unclaimed:
		return finding.CellUnclaimed, finding.Error
	case table.Barren:
		return finding.CellUnclaimed, finding.Warning
	case table.Undeclared:
		return finding.MarkUndeclared, finding.Error
	case table.Several:
		return finding.MarksSeveral, finding.Error
	case table.Hidden:
		return finding.SheetHidden, finding.Note
	}
	panic("intake: graded: a fault of no kind")
}
