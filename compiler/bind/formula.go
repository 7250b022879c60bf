package bind

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/formula"
	"ferrule/sheets"
)

func formulaKinds() []finding.Kind {
	return []finding.Kind{
		{Code: finding.FormulaMalformed, Severity: "error",
			Summary: "a formula of a Limits or Calculated sheet that cannot be read, or that adds or compares unlike things",
			Doc:     "A formula is made of the names of part properties and facts as they stand in the headers, quantities such as 10 mm, + - * / with spaces around, and round brackets. What it adds, subtracts and compares must be of one kind: a length with a length. The row is left out; the rest of the catalogue is compiled.",
			Before:  "Limits!C2  Extended length - Axle load",
			After:   "Limits!C2  Extended length - Compressed length"},
		{Code: finding.CalculatedDiffers, Severity: "error",
			Summary: "a part states a property that follows otherwise from its other properties",
			Doc:     "A Calculated row says how the property follows from others, and the part states another value than that, by more than one in the last digit that is stated. One of the numbers is wrong.",
			Before:  "Parts!E4  Extended length 612 mm  F4  Compressed length 378 mm  G4  Stroke 324 mm",
			After:   "Parts!E4  Extended length 612 mm  F4  Compressed length 378 mm  G4  Stroke 234 mm"},
		{Code: finding.CalculatedUndefined, Severity: "error",
			Summary: "a calculated property has no value for a part",
			Doc:     "With the part's properties the formula divides by zero, or by a range that holds zero. The part has no such property then.",
			Before:  "Calculated!C2  Rate / Turns\nParts!F4  Turns 0",
			After:   "Parts!F4  Turns 8"},
		{Code: finding.CalculatedUnused, Severity: "note",
			Summary: "a calculated property that no part has",
			Doc:     "No part of the row's family states everything that the formula needs.",
			Before:  "Calculated!A2  Stroke  C2  Extended length - Compressed length   (no part states both)",
			After:   "Parts!E4  Extended length 612 mm  F4  Compressed length 378 mm"},
	}
}

// formula compiles the formula in a cell; false where it cannot be read.
func (b *binder) formula(r row, column string, names *formula.Names) (*formula.Formula, bool) {
	f, ok := r.field(column)
	if !ok || f.Broken {
		return nil, false
	}
	o := b.sizes()
	o.Comma = o.Comma && f.Kind != sheets.Number
	out, err := formula.Parse(f.Text, names, o)
	if err != nil && err != formula.ErrDead && !b.owedFigure(f.Text) {
		b.fail(finding.FormulaMalformed, r.place(f), "%s", err)
	}
	return out, err == nil
}
