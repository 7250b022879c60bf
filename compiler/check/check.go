// Package check holds the checks: each a value with its description and what it does
// to the catalogue, to a platform or to a position of a platform.
package check

import (
	"ferrule/compiler/decide"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// Check is one thing that can be wrong. At least one of its functions is set.
type Check struct {
	Kind finding.Kind
	// Platform looks at one platform as a whole, before its positions.
	Platform func(*Platform)
	// Position looks at one position of one platform; it may make regions.
	Position func(*Position)
	// Catalogue looks at the whole catalogue, after all platforms.
	Catalogue func(*Catalogue)
}

// All gives the checks in the order in which they run.
func All() []*Check {
	return []*Check{
		coverageGap, coveragePlanned, coverageAsk,
		fitmentConflict, partOutOfPlace, partForbidden, lineSizeMismatch, companionMissing, companionForbidden,
		factConflict, factMissing, limitBroken, limitUndefined, propertyMissing,
		positionConflict, vehiclesOverlap,
		quantityOdd, coverageThin, sideMissing, sideQuantity, sidesDiffer, indistinguishable, sizeNearMiss,
		rowUnreachable, cellRedundant, rowsMergeable,
		reasonMissing, partUnused, familyMissing, familyAlike, partNotCurrent, positionUnused, traitUnused, limitUnused, factUnused, valueOutlier, orderReversed,
	}
}

// Kinds describes the codes of all checks.
func Kinds() []finding.Kind {
	kinds := []finding.Kind{tooIrregular}
	for _, c := range All() {
		kinds = append(kinds, c.Kind)
	}
	return kinds
}

// Catalogue is what a catalogue check sees.
type Catalogue struct {
	*model.Catalogue
	Reached map[any]bool             // rows that match a vehicle that exists, by pointer
	Exists  map[*model.Platform]bool // platforms that a Vehicles row is about
	Needed  map[cell.Place]bool      // fitment cells without which something would not be said
	limits  *limits
	owed    *owed.Ledger
	report  func(*finding.Finding)
}

// Report tells a finding that is not about certain vehicles.
func (c *Catalogue) Report(f *finding.Finding) { c.report(f) }

// Platform is what a platform check sees.
type Platform struct {
	*decide.Platform
	run *run
}

// Report tells a finding about a region of the platform that depends on some traits; an
// empty region is none.
func (p *Platform) Report(f finding.Finding, region space.Region, by decide.Mention) {
	p.run.report(f, region, by)
}

// Position is what a position check sees.
type Position struct {
	*decide.Place
	run  *run
	pair *decide.Place // made when a check first asks for it
}

// unsettle keeps what is fitted in a region from being published, for a finding of the
// position about a part; "" stands for none.
func (p *Position) unsettle(region space.Region, by decide.Mention, code finding.Code, part string) {
	p.Unsettle(region, by, decide.Cause{Code: string(code), Position: p.Place.Position.Name, Part: part})
}

// Report tells a finding about a region of the platform that depends on what the
// position's rows name; an empty region is none. What an Accepted row names becomes
// an entry of its own.
func (p *Position) Report(f finding.Finding, region space.Region) { p.ReportBy(f, region, nil) }

// ReportBy is Report for a region that depends on further traits.
func (p *Position) ReportBy(f finding.Finding, region space.Region, by decide.Mention) {
	f.Position = p.Place.Position.Name
	m := p.Mentioned()
	m.Add(by)
	p.run.report(f, region, m)
}
