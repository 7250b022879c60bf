// Package owed knows what was set aside and what it might have said, so that what is only
// there because of it can be counted under the finding that tells of it.
//
// Nothing else is held back: a gap is owed exactly on those vehicles that a row which was
// set aside may be about, and is told on all others.
package owed

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// Maybe is a fitment cell that was set aside. When is the condition of its row as far as
// it can be read: what cannot is taken for any. Fits is nil where the cell cannot be read.
type Maybe struct {
	When     model.When
	Position *model.Position
	Fits     *model.Fits
	Cause    *finding.Finding
}

// Ledger holds what was set aside. The zero value is empty, and so is nil.
type Ledger struct {
	by      map[*model.Position][]Maybe
	offered map[*model.Part][]Maybe
	traits  map[*model.Trait]*finding.Finding
}

// Add keeps a cell.
func (l *Ledger) Add(m Maybe) {
	if l.by == nil {
		l.by, l.offered = map[*model.Position][]Maybe{}, map[*model.Part][]Maybe{}
	}
	l.by[m.Position] = append(l.by[m.Position], m)
	if m.Fits != nil {
		m.Fits.Parts(func(p *model.Part) { l.offered[p] = append(l.offered[p], m) })
	}
}

// Named keeps that a column was probably meant for a trait.
func (l *Ledger) Named(t *model.Trait, cause *finding.Finding) {
	if l.traits == nil {
		l.traits = map[*model.Trait]*finding.Finding{}
	}
	if l.traits[t] == nil {
		l.traits[t] = cause
	}
}

// At gives the cells of a position.
func (l *Ledger) At(p *model.Position) []Maybe {
	if l == nil {
		return nil
	}
	return l.by[p]
}

// Offering gives the cells that offer a part.
func (l *Ledger) Offering(p *model.Part) []Maybe {
	if l == nil {
		return nil
	}
	return l.offered[p]
}

// Naming gives what was told of a column that was probably meant for the trait; nil for none.
func (l *Ledger) Naming(t *model.Trait) *finding.Finding {
	if l == nil {
		return nil
	}
	return l.traits[t]
}
