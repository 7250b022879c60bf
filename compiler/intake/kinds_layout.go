package intake

import "ferrule/compiler/finding"

// layoutKinds describes the codes of sheets that are read as Layouts sheets say.
func layoutKinds() []finding.Kind {
	return []finding.Kind{
		{Code: finding.LayoutMalformed, Severity: "error",
			Summary: "a row of a Layouts sheet cannot be read, or too little is said",
			Doc:     "A row says with one of ten words how a sheet is read. What stands under Where and As must be of the form that its word takes, and a row table comes first. The row is left out; the message says what to write. It is told as well where a sheet needs a row that is not there, such as the century of years with two digits.",
			Before:  "Layouts  Chart  table  line 3    Fitment",
			After:   "Layouts  Chart  table  header 3  Fitment"},
		{Code: finding.LayoutConflict, Severity: "error",
			Summary: "two rows of a Layouts sheet contradict each other",
			Doc:     "Two rows of one table say what the same column is, what the same mark means, or that one head is read and left out. The first of them holds until one is gone.",
			Before:  "Layouts  Chart  mark  x  this row\nLayouts  Chart  mark  x  nothing",
			After:   "Layouts  Chart  mark  x  this row\nLayouts  Chart  mark  -  nothing"},
		{Code: finding.LayoutUnmatched, Severity: "error",
			Summary: "a row of a Layouts sheet names what a sheet does not have, or has twice",
			Doc:     "No sheet has the name, no heading the text, no row begins with it, or a heading occurs twice, so that nobody can tell which is meant. Heads of two rows are written Group / Head, and column C names a column whatever stands above it. A pattern with * is about no sheet of a known kind: its name is written out where it is to be read by a layout.",
			Before:  "Layouts  Chart  is  Platfrom  Platform",
			After:   "Layouts  Chart  is  Platform  Platform"},
		{Code: finding.LayoutIdle, Severity: "warning",
			Summary: "a row of a Layouts sheet does nothing",
			Doc:     "The mark stands nowhere, no cell says the words that others are declared for, or no row is left out by it. Either the sheet has changed, or the row does not say what stands there.",
			Before:  "Layouts  Chart  mark  X1  nothing   (no cell of the sheet says X1)",
			After:   "(the row is deleted)"},
		{Code: finding.CellUnclaimed, Severity: "error, or warning where a row is named and nothing is marked in it",
			Summary: "a sheet that is read by a layout holds cells that nothing claims",
			Doc:     "Every filled cell of such a sheet is used by some row of Layouts, left out by a row skip, or told: a column of remarks may hold the exception that matters. A column is told once, with how many cells it has, and so is what stands above, between and below the tables. Say what it holds, or leave it out by name.",
			Before:  "Chart!F3  Remarks   (no row of Layouts is about it)",
			After:   "Layouts  Chart  is    Remarks  Note\n(or)\nLayouts  Chart  skip  Remarks"},
		{Code: finding.MarkUndeclared, Severity: "error",
			Summary: "a grid has a mark or a footnote sign that no row of Layouts declares",
			Doc:     "A sign behind a mark is an exception that somebody wrote down below the table. What it means is said by a row mark; until then the cell says nothing. Cells with the same sign are told together.",
			Before:  "Chart!D7  x²   (only x is declared)",
			After:   "Layouts  Chart  mark  ²  Front axle = Independent"},
		{Code: finding.MarksSeveral, Severity: "error",
			Summary: "several parts are marked at one place of one vehicle",
			Doc:     "Whether one of them fits or all are fitted together is not said, so the place counts as unread. A row mark with or under As means one of them, in the order of the sheet; with + all together. Where each is for some of the vehicles only, each needs a mark of its own with the condition.",
			Before:  "Chart!D5  x   D9  x   (HD-20 and HD-10, both Front damper of H7)",
			After:   "Layouts  Chart  mark  x  or"},
	}
}
