package bind

import (
	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// fits reads a fitment cell, or one that is written like it, and tells what is wrong with it.
// Beside what the whole cell shows it gives the parts that are probably meant by numbers in it.
func (b *binder) fits(text string, at cell.Place) lexicon.Cell {
	said := b.lexicon.Fits(text)
	for _, number := range said.Unknown {
		if p := b.unknownPart(number, at); p != nil {
			said.Meant = append(said.Meant, p)
		}
	}
	switch bad := said.Fault; bad.Flaw {
	case lexicon.None:
	case lexicon.Undeclared:
		b.unknown(finding.ReferenceUnknown, schema.Positions, "position", bad.Name, &b.lexicon.Positions, at)
	case lexicon.NoPart:
		b.fail(finding.PartUnknown, at, "%s", bad.Says)
	default:
		b.fail(finding.FitmentMalformed, at, "%s", bad.Says)
	}
	return said
}

// partOr finds the part of a column that takes one number, or stands in for one that
// nothing declares, with a finding.
func (b *binder) partOr(number string, at cell.Place) *model.Part {
	p := b.lexicon.StandIn(number)
	if p.Known {
		return p
	}
	if write := b.lexicon.OneNumber(number); write != "" {
		b.fail(finding.PartUnknown, at, "no part is called %q; %s", number, write)
	} else {
		b.unknownPart(number, at)
	}
	return p
}

// unknownPart tells of a number that nothing declares, and gives the part that is probably
// meant by it; nil where there is none, or nothing is told.
func (b *binder) unknownPart(number string, at cell.Place) *model.Part {
	if b.quiet || b.owed(finding.PartUnknown, schema.Parts, number) {
		return nil
	}
	if bad, ok := b.lexicon.Mangled(number); ok {
		b.fail(finding.CellNumberMangled, at, "%s", bad.Says)
		return nil
	}
	if b.nameless(schema.Parts) {
		b.absent[schema.Parts]++
		return nil
	}
	if b.lay(number) {
		return nil
	}
	says, meant := b.lexicon.NoPart(number)
	b.fail(finding.PartUnknown, at, "%s", says)
	return meant
}
