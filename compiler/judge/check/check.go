// Package check holds the checks: each a value with its description, what it requires, and
// what it does to the catalogue, to a platform or to a position of a platform.
package check

import (
	"ferrule/compiler/finding"
)

// Check is one thing that can be wrong. At least one of its functions is set. A check knows
// of no other: what several are worked out from is made before they run (Requires), so each
// tells the same alone as with all others.
type Check struct {
	Kind     finding.Kind
	Requires []Ground
	// Platform looks at one platform as a whole, before its positions.
	Platform func(*Platform)
	// Position looks at one position of one platform; it may make regions.
	Position func(*Position)
	// Catalogue looks at the whole catalogue, after all platforms.
	Catalogue func(*Catalogue)
}

// Ground is what several checks stand on. It is made once, before any check that requires
// it, and only where one does.
type Ground uint8

const (
	Limits     Ground = iota // of the catalogue: which limits are about which part
	Misfits                  // of the catalogue: cells with a part that belongs elsewhere
	Complained               // of the catalogue: complaints that are probably misspelt, or of which a row was set aside
	Sides                    // of the catalogue: what is a mirror image, and which parts go on either side
	Facts                    // of a platform: what the Facts sheets say on it
	Offers                   // of a platform: where parts are offered that rules name under With
	Met                      // of all platforms: the limits that are about a part which is offered
	Needed                   // of all platforms: the cells without which something would not be said
	grounds
)

// All gives the checks in the order in which they run.
func All() []*Check {
	return []*Check{
		coverageGap, coveragePlanned, coverageAsk,
		fitmentConflict, partOutOfPlace, partForbidden, lineSizeMismatch, companionMissing, companionForbidden,
		factConflict, factMissing, limitBroken, limitUndefined, propertyMissing,
		positionConflict, vehiclesOverlap, vehiclesEmpty, breakIdle,
		quantityOdd, complaintUnanswered, placeAbsent, complaintOrder, inspectionAlike, coverageThin, sideMissing, sideQuantity, sidesDiffer, indistinguishable, sizeNearMiss,
		rowUnreachable, cellRedundant, rowsMergeable,
		reasonMissing, translationMissing, translationDiffers, translationUnused, partUnused, familyMissing, familyAlike, complaintAlike, partNotCurrent, positionUnused, traitUnused, limitUnused, factUnused, valueOutlier, orderReversed,
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
