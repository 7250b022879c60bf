package bind

import "ferrule/compiler/finding"

// The codes of this stage.
const (
	SheetMissing       finding.Code = "sheet-missing"
	HeaderUnknown      finding.Code = "header-unknown"
	DeclaredTwice      finding.Code = "declared-twice"
	PartUnknown        finding.Code = "part-unknown"
	ReferenceUnknown   finding.Code = "reference-unknown"
	KitCycle           finding.Code = "kit-cycle"
	ReplacementCycle   finding.Code = "replacement-cycle"
	ConditionMalformed finding.Code = "condition-malformed"
	FitmentMalformed   finding.Code = "fitment-malformed"
	SizeUnitless       finding.Code = "size-unitless"
	SizeMixedUnits     finding.Code = "size-mixed-units"
	SizeUnusual        finding.Code = "size-unusual"
	SizeMalformed      finding.Code = "size-malformed"
	QuantityMalformed  finding.Code = "quantity-malformed"
	QuantityDisagrees  finding.Code = "quantity-disagrees"
	UnitUnknown        finding.Code = "unit-unknown"
	VehiclesBlank      finding.Code = "vehicles-blank"
	VehiclesMissing    finding.Code = "vehicles-missing"
	RoadPartial        finding.Code = "road-partial"
	YearsOutside       finding.Code = "years-outside"
	ReplacedCurrent    finding.Code = "replaced-current"
	PairConflict       finding.Code = "pair-conflict"
	SizeContradiction  finding.Code = "size-contradiction"
	RuleIncomplete     finding.Code = "rule-incomplete"
)

// Kinds describes the codes of this stage.
func Kinds() []finding.Kind {
	return append(formulaKinds(), []finding.Kind{
		{Code: SheetMissing, Severity: "error",
			Summary: "a kind of sheet that the catalogue needs is not there",
			Doc:     "Without Platforms, Traits, Vehicles, Positions and Parts other sheets have nothing to refer to. Names that cannot be found because of the missing sheet are counted, not listed.",
			Before:  "(no sheet Traits; Vehicles!C1  Levelling)",
			After:   "Traits!A2  Levelling   B2  Mechanical"},
		{Code: HeaderUnknown, Severity: "error, or warning in Parts",
			Summary: "a column is none of its sheet's, no trait and no position",
			Doc:     "Nothing under the column is read. A misspelt trait would otherwise leave rows wider than they were meant. In Parts, where every further column is a property, one that is nearly called like a column of the sheet is told.",
			Before:  "Fitment!C1  Frnt suspension",
			After:   "Fitment!C1  Front suspension"},
		{Code: DeclaredTwice, Severity: "error, or warning where a kit names a part twice with one quantity",
			Summary: "two rows declare one name and differ",
			Doc:     "The first of the two holds until one is deleted or they say the same. A part stands once in a kit.",
			Before:  "Parts!A4  HD-20  E4  3/8 in\nParts!A9  HD-20  E9  1/2 in",
			After:   "Parts!A4  HD-20  E4  3/8 in"},
		{Code: PartUnknown, Severity: "error",
			Summary: "a part number that no Parts or Kits row declares",
			Doc:     "A fitment cell with an unknown number still decides, so that one slip is not a coverage gap as well; nothing is published while it stands. What is offered instead is a current part whose number looks the same or is one letter away, if no other is as near.",
			Before:  "Fitment!F6  HD-2O",
			After:   "Fitment!F6  HD-20"},
		{Code: ReferenceUnknown, Severity: "error",
			Summary: "a name (platform, trait value, position, family, caution, code) that nothing declares",
			Doc:     "A row with an unknown name in a condition is set aside: it matches nothing, and is not reported as unreachable as well.",
			Before:  "Fitment!B6  Air baem",
			After:   "Fitment!B6  Air beam"},
		{Code: KitCycle, Severity: "error",
			Summary: "a kit that holds itself, directly or through other kits",
			Doc:     "The component that leads back is left out until the kit is mended.",
			Before:  "Kits!A2  K-1  B2  K-2\nKits!A3  K-2  B3  K-1",
			After:   "Kits!A2  K-1  B2  K-2\nKits!A3  K-2  B3  HD-20"},
		{Code: ReplacementCycle, Severity: "error",
			Summary: "a part that is replaced by itself, directly or through other parts",
			Doc:     "Whoever follows the chain never arrives at a part to order.",
			Before:  "Parts!A4  HD-10  F4  HD-20\nParts!A5  HD-20  F5  HD-10",
			After:   "Parts!A4  HD-10  F4  HD-20\nParts!A5  HD-20  F5  (blank)"},
		{Code: ConditionMalformed, Severity: "error",
			Summary: "a condition that cannot be read",
			Doc:     "A condition is blank, any, one or more values (A, B or C), not and values, from a value or to a value where the trait has an order, or n/a where the trait does not apply. Years are 2011, 2007-2012, 2007+ or to 2006. The row is set aside.",
			Before:  "Fitment!C6  2012-2007",
			After:   "Fitment!C6  2007-2012"},
		{Code: FitmentMalformed, Severity: "error",
			Summary: "a fitment cell that cannot be read",
			Doc:     "Parts that are fitted together are joined by +, a choice by or, and a quantity stands before a part with x. Where nothing belongs, write none and the reason. A word, a mark or a remark in place of a part still decides, so that it is not a gap as well; any other cell counts as blank.",
			Before:  "Fitment!F6  HD-20, HD-21",
			After:   "Fitment!F6  HD-20 or HD-21"},
		{Code: SizeUnitless, Severity: "error",
			Summary: "a size, or a value of a measured column, without a unit",
			Doc:     "A size without a unit equals nothing: 8 may be 8 mm or eight of something else. A further column of Parts is measured where its header states a unit, or where a cell does and most of its cells are numbers. Write the unit in the cell, or in square brackets in the column's header.",
			Before:  "Parts!E4  1/2",
			After:   "Parts!E4  1/2 in"},
		{Code: SizeMixedUnits, Severity: "warning",
			Summary: "one column holds sizes or values of the inch and of the metric system",
			Doc:     "Both are understood; mixed columns are where a wrong unit hides.",
			Before:  "Parts!E4  1/2 in   E5  12 mm",
			After:   "Parts!E4  1/2 in   E5  1/2 in"},
		{Code: SizeUnusual, Severity: "warning",
			Summary: "a size that is in no table of nominal sizes",
			Doc:     "Line sizes are nominal sizes of tubing (outside diameter) or hose (inside diameter), and a wall that is stated is one that a table has for the diameter. The message names the nominal sizes near it, or the walls. A size that does exist is declared by a row of a Sizes sheet.",
			Before:  "Parts!E4  0.52 in",
			After:   "Parts!E4  1/2 in"},
		{Code: SizeMalformed, Severity: "error",
			Summary: "a size that cannot be read",
			Doc:     "A size is a number or a fraction with a unit: 1/2 in, 1 1/4 in, 12.7 mm, or 8x1 mm for outside diameter and wall.",
			Before:  "Parts!E4  half inch",
			After:   "Parts!E4  1/2 in"},
		{Code: SizeContradiction, Severity: "error",
			Summary: "a Sizes row contradicts itself or a built-in table",
			Doc:     "A tube is named by its outside diameter and a hose by its inside diameter, so Nominal, Outside diameter and Wall must agree; a wall is less than half the outside diameter; a nominal size is exact and no rounding of one that a built-in table has; a System that is a built-in table has the walls and tolerances of that table. The row is left out.",
			Before:  "Sizes!B4  8x1 mm   E4  4 mm",
			After:   "Sizes!B4  8x1 mm   E4  1 mm"},
		{Code: QuantityMalformed, Severity: "error, or warning where a cell of Parts cannot be read and is kept as a text",
			Summary: "a cell of a measured column holds no value of its kind",
			Doc:     "A measured value is a number with a unit, which the header may state: 12.5 in, 1 1/2 in, 8 ft 6 in, 65 lb·ft, 12-12.4 in, 10 mm ±0.1. A cell of Parts that cannot be read is kept as a text, which is published as it stands and without the header's unit, and nothing is worked out with it; write n/a where a part has no such value. Two numbers that are no value of the column are an error and not published: a fraction of anything but inches and feet (380/612 mm), one whose denominator is none of 2, 4, 8, 16, 32 and 64, or a fraction to a whole number, which is a thread (1/4-20); a column of threads states no unit and is text. A cell of Facts that cannot be read counts as blank. A mass under lengths is an error. So that a force is told from a mass, lb is a mass and lbf a force; lb/in and lb·ft are of pound-force.",
			Before:  "Parts!G1  Extended length [mm]   G4  61O",
			After:   "Parts!G1  Extended length [mm]   G4  610"},
		{Code: QuantityDisagrees, Severity: "error",
			Summary: "a value is given in two units that do not agree",
			Doc:     "The value in brackets must be the first one in another unit, within what both are rounded to: half a unit of the last digit, where the second may have been rounded to tens or hundreds as tables print it (115 psi (800 kPa)), and the first, beyond three digits, to its last zeros. More than 6 % apart they are never one value, whatever their digits; temperatures are compared by their digits alone. Which of the two is wrong only its source can tell, so neither is used or published.",
			Before:  "Parts!H4  1820 lb·ft (2712 N·m)",
			After:   "Parts!H4  2000 lb·ft (2712 N·m)"},
		{Code: UnitUnknown, Severity: "error in Facts and Calculated sheets; in Parts a warning where it is nearly the name of a unit or stands in round brackets, else a note",
			Summary: "the brackets of a header, or the Unit of a calculated value, hold no unit that is known",
			Doc:     "A unit stands in square brackets. The values under a column of Parts are kept as texts, and nothing is worked out with them; where the brackets hold a remark, nothing is wrong. Facts and calculated values are there to be worked with.",
			Before:  "Parts!H1  Pressure [pssi]",
			After:   "Parts!H1  Pressure [psi]"},
		{Code: PairConflict, Severity: "error",
			Summary: "two positions are no pair: they name others, or stand on one side",
			Doc:     "Pair names the position opposite, so the two name each other; where one of them leaves the cell blank, the other says it for both. They stand on one axle and not on the same side. Left and right are compared only where the two name each other.",
			Before:  "Positions!A4  Restrictor left   D4  Restrictor right\nPositions!A5  Restrictor right  D5  Tag restrictor left",
			After:   "Positions!A4  Restrictor left   D4  Restrictor right\nPositions!A5  Restrictor right  D5  Restrictor left"},
		{Code: VehiclesBlank, Severity: "warning",
			Summary: "a Vehicles row leaves a trait or Years blank that the platform's other rows fill",
			Doc:     "In a Vehicles sheet a blank cell says that the trait does not apply to these vehicles. Where it was only forgotten, the vehicles of the row have no value and match few fitment rows. Write n/a to say it on purpose. Blank Years are all years of the platform: where no more rows of the platform leave them blank than state them, those that do are told, and writing any says it on purpose.",
			Before:  "Vehicles!D5  (blank)",
			After:   "Vehicles!D5  n/a"},
		{Code: VehiclesMissing, Severity: "error",
			Summary: "a platform without a row in Vehicles",
			Doc:     "Which vehicles of a platform exist is stated in Vehicles. Without a row there is nothing to check and nothing to publish for it.",
			Before:  "Platforms!A4  H7   (no row of Vehicles names H7)",
			After:   "Vehicles!A9  H7"},
		{Code: RoadPartial, Severity: "note",
			Summary: "some Vehicles rows of a platform say how many are on the road and others do not",
			Doc:     "A row without a number counts 0, so the platform's shares are too small.",
			Before:  "Vehicles!H4  120   H5  (blank)",
			After:   "Vehicles!H4  120   H5  40"},
		{Code: YearsOutside, Severity: "warning",
			Summary: "a Vehicles row names a model year that its platform does not have",
			Doc:     "Platforms says from when to when a platform was made, and a Vehicles row says that vehicles of another year exist. They are left out until the two agree, so gaps and conflicts on them are not seen. Where all years of the platform are meant, write 2007+ or to 2006. Of several platforms one must have the year.",
			Before:  "Platforms!A2  H7  B2  2004-2019\nVehicles!A5  H7  B5  2013-2091",
			After:   "Vehicles!A5  H7  B5  2013-2019"},
		{Code: ReplacedCurrent, Severity: "warning",
			Summary: "a part names what replaces it, and its Status is current",
			Doc:     "A part with a blank Status is current, and is offered without a word about what replaces it.",
			Before:  "Parts!A4  HD-10  D4  (Status is blank)  E4  HD-20",
			After:   "Parts!A4  HD-10  D4  superseded         E4  HD-20"},
		{Code: RuleIncomplete, Severity: "error",
			Summary: "a Compatibility row that is about no part, or requires nothing",
			Doc:     "Part or Family says what the row is about, and where both do the part must be of the family; require needs the part that must come with it in With, and a part is no company for itself.",
			Before:  "Compatibility!A3  HD-20  E3  require  (With is blank)",
			After:   "Compatibility!A3  HD-20  C3  BK-4  E3  require"},
	}...)
}
