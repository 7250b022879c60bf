package table

import "ferrule/compiler/finding"

// The codes of this stage.
const (
	ColumnMissing     finding.Code = "column-missing"
	HeaderDuplicate   finding.Code = "header-duplicate"
	HeaderBlank       finding.Code = "header-blank"
	CellCovered       finding.Code = "cell-covered"
	CellDateMangled   finding.Code = "cell-date-mangled"
	CellNumberMangled finding.Code = "cell-number-mangled"
	CellLookalike     finding.Code = "cell-lookalike"
	CellFormulaStale  finding.Code = "cell-formula-stale"
	CellError         finding.Code = "cell-error"
	SheetHidden       finding.Code = "sheet-hidden"
)

// Kinds describes the codes of this stage.
func Kinds() []finding.Kind {
	return []finding.Kind{
		{Code: ColumnMissing, Severity: "error",
			Summary: "a sheet has no header row with all the columns that its kind needs",
			Doc:     "The header is the first of the first twenty rows that holds the required columns, so a title may stand above it. Where no row does, the first row that is not empty is taken, and the columns that it lacks are named.",
			Before:  "Platforms!A1  Chassis   B1  Years",
			After:   "Platforms!A1  Platform  B1  Years"},
		{Code: HeaderDuplicate, Severity: "error",
			Summary: "two columns of one sheet have the same name",
			Doc:     "The first of the two is read, the other is not. Case and extra spaces make no difference between names.",
			Before:  "Fitment!D1  Note   H1  note",
			After:   "Fitment!D1  Note   (H1 moved into D)"},
		{Code: HeaderBlank, Severity: "warning",
			Summary: "a column has values but no header",
			Doc:     "Values without a header cannot be given a meaning, so they are not read. A scratch area belongs on a sheet whose name starts with an underscore.",
			Before:  "Parts!K1  (blank)  K7  check with stores",
			After:   "Parts!K1  Remark   K7  check with stores"},
		{Code: CellCovered, Severity: "warning",
			Summary: "a merged range hides a value",
			Doc:     "A merged range has the value of its first cell, as a spreadsheet program shows it. A value that was left in another of its cells cannot be seen and is not read.",
			Before:  "Fitment!A2:A4 merged, A3 still holds a value",
			After:   "Fitment!A2:A4 merged, A3 empty"},
		{Code: CellDateMangled, Severity: "error",
			Summary: "a value was turned into a date",
			Doc:     "Spreadsheet programs turn what looks like a day and a month into a date as it is typed: 1/2 becomes 2 January or 1 February, 07-12 becomes July 2012. The value that was typed is gone, so it must be typed again, into a cell whose format is text.",
			Before:  "Parts!E9  2024-01-02 (shown as 02-Jan)",
			After:   "Parts!E9  1/2 in"},
		{Code: CellNumberMangled, Severity: "error",
			Summary: "a part number was turned into a number that reads otherwise",
			Doc:     "A number keeps no leading zeros and at most 15 digits, and what looks like a power of ten becomes one: 00417 becomes 417, 12E5 becomes 1200000.",
			Before:  "Parts!A4  417 (shown as 00417)",
			After:   "Parts!A4  00417 (as text)"},
		{Code: CellLookalike, Severity: "warning",
			Summary: "a word holds a letter of another alphabet, or a character that cannot be seen",
			Doc:     "A Cyrillic А looks like a Latin A and is another letter, so names that look the same do not match. Such letters arrive with text copied from documents and web pages.",
			Before:  "Fitment!F6  НD-20 (the first letter is Cyrillic)",
			After:   "Fitment!F6  HD-20"},
		{Code: CellFormulaStale, Severity: "error",
			Summary: "a formula was never calculated",
			Doc:     "Formulas are not calculated here: the value that the spreadsheet program stored is read. Workbooks written by other programs may hold none.",
			Before:  "Vehicles!H3  =G3*2 (no stored value)",
			After:   "Vehicles!H3  =G3*2 (calculated and saved: 240)"},
		{Code: CellError, Severity: "error",
			Summary: "a cell shows an error such as #N/A",
			Doc:     "The formula in the cell failed when it was last calculated, so there is no value to read.",
			Before:  "Fitment!F6  #N/A",
			After:   "Fitment!F6  HD-20"},
		{Code: SheetHidden, Severity: "note",
			Summary: "a sheet, rows or columns are hidden, and are read all the same",
			Doc:     "What is hidden counts like the rest, since a filter left on would otherwise take vehicles out of the catalogue.",
			Before:  "Fitment, rows 12 to 40 hidden by a filter",
			After:   "Fitment, nothing hidden"},
	}
}
