package intake

import (
	"slices"

	"ferrule/compiler/finding"
)

// Kinds describes the codes of reading and validating.
func Kinds() []finding.Kind { return slices.Concat(fileKinds(), tableKinds(), layoutKinds()) }

// fileKinds describes the codes of workbooks, their sheets and their rows as a whole.
func fileKinds() []finding.Kind {
	return []finding.Kind{
		{Code: finding.WorkbookUnreadable, Severity: "error",
			Summary: "a workbook cannot be read whole",
			Doc:     "A file that is damaged, encrypted, of another format or against the rules of its own might lose rows without anyone noticing, so none of it is used. Faults of the other workbooks are told; nothing is said about coverage and nothing is published, since missing rows would look like gaps.",
			Before:  "fitment.xlsx, of which the last part is missing after a broken copy",
			After:   "fitment.xlsx, copied again, or opened and saved anew"},
		{Code: finding.WorkbookTwice, Severity: "error",
			Summary: "two workbooks hold the same cells",
			Doc:     "A copy left in the folder would count every vehicle on the road twice. The second one, in name order, is left out.",
			Before:  "fitment.xlsx and fitment (copy).xlsx",
			After:   "fitment.xlsx"},
		{Code: finding.FileIgnored, Severity: "warning",
			Summary: "a file in the folder holds tables in a format that is not read",
			Doc:     "Workbooks are .xlsx and .xlsm files, and text tables .csv and .tsv files. Another format (.xls, .xlsb, .ods, .numbers) may hold rows that somebody expects to be part of the catalogue, and so may a .txt file that is called like a sheet (Fitment H7.txt).",
			Before:  "parts.xls",
			After:   "parts.xlsx (saved as an .xlsx workbook)"},
		{Code: finding.SheetIgnored, Severity: "error where the sheet is probably one of the catalogue, else note",
			Summary: "a sheet is left alone, since its name begins with no kind of sheet",
			Doc:     "The first word of a sheet's name says what it holds. Where a name is near a kind's (Compatability, Fitmant rear, Copy of Fitment, old Fitment), or the sheet has a header that holds what a kind needs, it is an error until the sheet is renamed or its name starts with an underscore: rules that nobody reads protect nobody. What could not be found or is missing because of it is counted under it and not listed. Any other sheet is a note. A name that starts with an underscore is never read.",
			Before:  "Fitmnet H7",
			After:   "Fitment H7"},
		{Code: finding.MarksIgnored, Severity: "note",
			Summary: "a workbook is a marked copy, and its marks are left alone",
			Doc:     "Notes, fills and the sheet Findings that the command mark has put into a copy raise no findings of their own when the copy is read. They are recognised by a seal, a digest of what they say: a note or a sheet in which somebody has written a word more is theirs, and is told as any other; so is a fill of the same colour where no such note stands. What is left alone is counted here, so that nothing is passed over in silence. Cells are read as ever.",
			Before:  `vehicles.xlsx, marked, in the catalogue's folder`,
			After:   "vehicles.xlsx, in which what was marked is mended"},
		{Code: finding.SheetTwice, Severity: "error",
			Summary: "two sheets of a kind, or two workbooks, are nearly the same",
			Doc:     "Most rows of one stand in the other as well: a copy was left in the workbook, or an older copy of a workbook in the folder. Where the two differ nobody can say which one holds, so one of them is not read, that with the longer name, which copies have, or else the second, and nothing is published until one of them is gone. What only the second declares is counted as missing because of it.",
			Before:  "Fitment H7 and Fitment H7 (2), of which 3 of 40 rows differ",
			After:   "Fitment H7"},
		{Code: finding.SchemaInvalid, Severity: "error",
			Summary: "a schema of the catalogue's own cannot be used",
			Doc:     "A file such as parts.schema.json beside the workbooks makes the rules for its kind of sheet stricter. It must be a JSON Schema and may refer to nothing outside its folder.",
			Before:  `parts.schema.json  {"properties": {"Family": {"enum": "damper"}}}`,
			After:   `parts.schema.json  {"properties": {"Family": {"enum": ["damper"]}}}`},
		{Code: finding.ValueInvalid, Severity: "error",
			Summary: "a cell breaks the schema of its sheet",
			Doc:     "Every row is held against a JSON Schema: columns that must be filled, numbers, words from a list. The message says what stands there and what may.",
			Before:  "Parts!D4  curent",
			After:   "Parts!D4  current"},
		{Code: finding.YearsAhead, Severity: "warning",
			Summary: "a model year more than two years from now",
			Doc:     "Model years run at most two years ahead of the calendar. A later one is a slip of the fingers, or was dragged. What is told of a platform's Years is not told again where other rows name the year.",
			Before:  "Platforms!B3  2003-2108",
			After:   "Platforms!B3  2003-2018"},
	}
}
