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
	CellDisplay       finding.Code = "cell-display"
	CellBoolean       finding.Code = "cell-boolean"
	CellStruck        finding.Code = "cell-struck"
	CellComment       finding.Code = "cell-comment"
	CellColour        finding.Code = "cell-colour"
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
			Doc:     "A merged range has the value of its first cell, as a spreadsheet program shows it. Another value that was left in one of its other cells cannot be seen and is not read.",
			Before:  "Fitment!A2:A4 merged, A3 still holds a value",
			After:   "Fitment!A2:A4 merged, A3 empty"},
		{Code: CellDateMangled, Severity: "error",
			Summary: "a value was turned into a date",
			Doc:     "Spreadsheet programs turn what looks like a day and a month into a date as it is typed: 1/2 becomes 2 January or 1 February, 5/32 becomes May 1932, 07-12 becomes 12 July or July 2012. A year, or any number, turns into a date where its cell has a date's format. The value that was typed is gone, so it must be typed again, into a cell whose format is text; the message says what it probably was, as far as the date tells. A date under Until is right, and so is one in a sentence, if it shows day, month and year.",
			Before:  "Parts!E9  2024-01-02 (shown as 02-Jan)",
			After:   "Parts!E9  1/2 in"},
		{Code: CellNumberMangled, Severity: "error",
			Summary: "a value was turned into a number that reads otherwise",
			Doc:     "A number keeps no leading zeros, no zeros that end it and at most 15 digits, and what looks like a power of ten becomes one: 00417 becomes 417, 12.50 becomes 12.5, 12E5 becomes 1200000. A number format can show zeros, letters or dashes that the number does not hold: what it holds is read. So it is where a format shows a measured value in another unit than the header's (24 as 24 in under [mm]), or scaled (0.4 as 40%, 1500 as 1.5). Cells of a column that are shown in one other unit are told together.",
			Before:  "Parts!A4  417 (shown as 00417)\nParts!G1  Extended length [mm]   G4  24 (shown as 24 in)",
			After:   "Parts!A4  00417 (as text)\nParts!G4  24 in (as text)"},
		{Code: CellLookalike, Severity: "warning",
			Summary: "a word holds a letter of another alphabet, or a character that cannot be seen",
			Doc:     "A Cyrillic А looks like a Latin A and is another letter, so names that look the same do not match. Such letters arrive with text copied from documents and web pages, as do soft hyphens, spaces without width and full-width digits. The message gives the text to type instead. A space that does not break is a space like any other. A sheet that is written in the other alphabet may have words of it.",
			Before:  "Fitment!F6  НD-20 (the first letter is Cyrillic)",
			After:   "Fitment!F6  HD-20"},
		{Code: CellDisplay, Severity: "warning",
			Summary: "a cell shows another value than it holds",
			Doc:     "What a cell holds is read, and a number format may show something else: 0.3125 as 1/3, where the format has room for one digit, 12.7 as 13, or nothing at all. Told where a size, a name or a part number is meant; figures may be rounded, but show no other fraction, and under a unit no words but the unit's.",
			Before:  "Parts!F7  0.3125 (shown as 1/3)",
			After:   "Parts!F7  5/16 in"},
		{Code: CellBoolean, Severity: "warning",
			Summary: "a truth value stands where a name is meant",
			Doc:     "Spreadsheet programs turn the words true and false into truth values and show them in the language of whoever opens the workbook. They are read as the texts TRUE and FALSE. A trait may have them as values.",
			Before:  "Parts!A9  TRUE (a truth value)",
			After:   "Parts!A9  TRUE (as text)"},
		{Code: CellStruck, Severity: "warning",
			Summary: "a row, a cell or a part of one is struck through, and is read all the same",
			Doc:     "Somebody crossed it out and left it in place. Whether it still holds is not for a program to guess, so it counts until it is deleted.",
			Before:  "Fitment, row 14, with a line through all of it",
			After:   "Fitment, row 14 deleted"},
		{Code: CellComment, Severity: "note",
			Summary: "a cell has a comment, which is not read",
			Doc:     "Comments, notes and threads are shown beside a cell by the spreadsheet program alone. An exception that stands there (not for left-hand drive) changes nothing in the guides. The note names the cells of a sheet, once; one that is only for you may stay.",
			Before:  "Fitment!F6  HD-20   (comment: not with the kneeling option)",
			After:   "Fitment!E6  Not kneeling   F6  HD-20"},
		{Code: CellColour, Severity: "note",
			Summary: "a fill or a colour of type marks some cells of a column and not others",
			Doc:     "Texts alone are read. Where red means discontinued, or yellow means to be checked, nothing of it comes into the guides. A column of one colour, a coloured header and rows striped by turns have no meaning and are not told. Blank cells are not looked at. Of a row with several coloured cells the first is named.",
			Before:  "Parts!A9  HD-20  (red)",
			After:   "Parts!A9  HD-20   D9  withdrawn"},
		{Code: CellFormulaStale, Severity: "error",
			Summary: "a formula was never calculated",
			Doc:     "Formulas are not calculated here: the value that the spreadsheet program stored is read. Workbooks written by other programs may hold none, and a formula that is typed into a cell whose format is text stays text.",
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
