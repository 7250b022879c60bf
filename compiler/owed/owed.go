// Package owed knows what was set aside and what it might have said, so that what is only
// there because of it can be counted under the finding that tells of it.
//
// Nothing else is held back: a gap is owed exactly on those vehicles that a row which was
// set aside may be about, and is told on all others.
package owed

import (
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
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
	all              []Maybe
	by               map[*model.Position][]Maybe
	offered          map[*model.Part][]Maybe
	traits           map[*model.Trait]*finding.Finding
	facts            []Fact
	accepted         []Acceptance
	properties       map[cell.Place]*finding.Finding
	kits             map[*model.Part]*finding.Finding
	vacant           map[*model.Position]*finding.Finding
	unread, unranked map[*cell.Sheet]*finding.Finding

	Limits, Fitments *finding.Finding // why a sheet of the kind is not used; nil: all are
}

// Parts tells whether something that was set aside may be about parts.
func (l *Ledger) Parts() bool {
	return len(l.all)+len(l.offered)+len(l.properties)+len(l.kits) > 0
}

// Fact is a Facts row that was set aside.
type Fact struct {
	When  model.When
	Facts map[*model.Fact]bool // that it states
	Cause *finding.Finding
}

// Acceptance is a row of an Accepted sheet that is not used.
type Acceptance struct {
	Row   *model.Acceptance
	Cause *finding.Finding
}

// Accept keeps what a row of a sheet that is not used would accept.
func (l *Ledger) Accept(row *model.Acceptance, cause *finding.Finding) {
	l.accepted = append(l.accepted, Acceptance{row, cause})
}

// Acceptances gives the rows of sheets that are not used, in their order.
func (l *Ledger) Acceptances() []Acceptance {
	if l == nil {
		return nil
	}
	return l.accepted
}

// State keeps a Facts row.
func (l *Ledger) State(f Fact) { l.facts = append(l.facts, f) }

// Stating gives the Facts rows that would state a fact.
func (l *Ledger) Stating(f *model.Fact) []Maybe {
	if l == nil {
		return nil
	}
	var out []Maybe
	for _, x := range l.facts {
		if x.Facts[f] {
			out = append(out, Maybe{When: x.When, Cause: x.Cause})
		}
	}
	return out
}

// Vacate keeps that rows of a position were set aside since a column of theirs is not read, so
// that it may exist on vehicles on which it is not known to. Another cause is passed over.
func (l *Ledger) Vacate(p *model.Position, cause *finding.Finding) {
	if cause == nil || cause.Code != finding.HeaderUnknown && cause.Code != finding.HeaderDuplicate || l.vacant[p] != nil {
		return
	}
	if l.vacant == nil {
		l.vacant = map[*model.Position]*finding.Finding{}
	}
	l.vacant[p] = cause
}

// Vacant gives why nobody knows all vehicles that a position exists on; nil: they are known.
func (l *Ledger) Vacant(p *model.Position) *finding.Finding {
	if l == nil {
		return nil
	}
	return l.vacant[p]
}

// Property keeps that the cell of a property is not read. A nil cause is passed over.
func (l *Ledger) Property(at cell.Place, cause *finding.Finding) {
	if cause == nil {
		return
	}
	if l.properties == nil {
		l.properties = map[cell.Place]*finding.Finding{}
	}
	l.properties[at] = cause
}

// Stated gives why the property of a cell is not known; nil: nothing was told of the cell.
func (l *Ledger) Stated(at cell.Place) *finding.Finding {
	if l == nil {
		return nil
	}
	return l.properties[at]
}

// Hold keeps that something which is not used says what a kit holds.
func (l *Ledger) Hold(kit *model.Part, cause *finding.Finding) {
	if l.kits == nil {
		l.kits = map[*model.Part]*finding.Finding{}
	}
	l.kits[kit] = cause
}

// Holding gives why nobody knows all that a kit holds; nil: it is known, or the part is none.
func (l *Ledger) Holding(kit *model.Part) *finding.Finding {
	if l == nil {
		return nil
	}
	return l.kits[kit]
}

// Offered keeps that something which is not used offers a part.
func (l *Ledger) Offered(p *model.Part, cause *finding.Finding) {
	if l.offered == nil {
		l.by, l.offered = map[*model.Position][]Maybe{}, map[*model.Part][]Maybe{}
	}
	l.offered[p] = append(l.offered[p], Maybe{Cause: cause})
}

// Unread keeps that a column of a sheet is not read.
func (l *Ledger) Unread(s *cell.Sheet, cause *finding.Finding) {
	if l.unread == nil {
		l.unread = map[*cell.Sheet]*finding.Finding{}
	}
	if l.unread[s] == nil {
		l.unread[s] = cause
	}
}

// Why gives the sheet that is not used and might use what nothing uses, by the code of
// what is told of that; nil for none.
func (l *Ledger) Why(code finding.Code) *finding.Finding {
	switch {
	case l == nil:
		return nil
	case code == finding.FactUnused:
		return l.Limits
	}
	return l.Fitments
}

// May gives what was told of a sheet or a column that is not read and offers the part of
// which an Accepted row names a finding; nil where there is none.
func (l *Ledger) May(a *model.Acceptance) *finding.Finding {
	if l == nil {
		return nil
	}
	for i := range l.all {
		m := &l.all[i]
		whole := slices.Contains([]finding.Code{finding.HeaderUnknown, finding.HeaderDuplicate, finding.SheetIgnored, finding.SheetTwice}, m.Cause.Code)
		if whole && a.Part != nil && m.Fits != nil && offers(m.Fits, a.Part) && (a.Position == nil || a.Position == m.Position) && meet(a.When.Platforms, m.When.Platforms) {
			return m.Cause
		}
	}
	return nil
}

func offers(f *model.Fits, part *model.Part) (out bool) {
	f.Parts(func(p *model.Part) { out = out || p == part })
	return out
}

// meet tells whether two lists of platforms, of which nil is all, have one in common.
func meet(a, b []*model.Platform) bool {
	return a == nil || b == nil || slices.ContainsFunc(a, func(p *model.Platform) bool { return slices.Contains(b, p) })
}

// Unrank keeps that the precedence of a sheet's rows is not read.
func (l *Ledger) Unrank(s *cell.Sheet, cause *finding.Finding) {
	if l.unranked == nil {
		l.unranked = map[*cell.Sheet]*finding.Finding{}
	}
	l.unranked[s] = cause
}

// Unranked gives why the precedence of the rows of one of the sheets is not known; nil: it is.
func (l *Ledger) Unranked(sheets ...*cell.Sheet) *finding.Finding {
	if l == nil {
		return nil
	}
	for _, s := range sheets {
		if cause := l.unranked[s]; cause != nil {
			return cause
		}
	}
	return nil
}

// Partly gives why a sheet is not read whole; nil: it is.
func (l *Ledger) Partly(s *cell.Sheet) *finding.Finding {
	if l == nil {
		return nil
	}
	return l.unread[s]
}

// Add keeps a cell.
func (l *Ledger) Add(m Maybe) {
	if l.by == nil {
		l.by, l.offered = map[*model.Position][]Maybe{}, map[*model.Part][]Maybe{}
	}
	l.all = append(l.all, m)
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

// Bearing gives what was told of a header under which cells may offer a part that a limit is
// about, or of rows of its position; nil for none.
func (l *Ledger) Bearing(limit *model.Limit) *finding.Finding {
	if l == nil {
		return nil
	}
	if cause := l.vacant[limit.Position]; cause != nil {
		return cause
	}
	for i := range l.all {
		m, hit := &l.all[i], false
		header := m.Cause.Code == finding.HeaderUnknown || m.Cause.Code == finding.HeaderDuplicate
		if header && m.Fits != nil && (limit.Position == nil || limit.Position == m.Position) {
			m.Fits.Parts(func(p *model.Part) { hit = hit || limit.About(p) })
		}
		if hit {
			return m.Cause
		}
	}
	return nil
}

// Naming gives what was told of a column that was probably meant for the trait; nil for none.
func (l *Ledger) Naming(t *model.Trait) *finding.Finding {
	if l == nil {
		return nil
	}
	return l.traits[t]
}
