package intake

// Read says what was read, in order.
type Read struct {
	Files []File
}

// File is one workbook.
type File struct {
	Name   string // relative to the catalogue
	Path   string // where it was read from
	Sheets []Sheet
	Failed bool // it could not be read whole
}

// Sheet is one sheet of a workbook.
type Sheet struct {
	Name   string
	Kind   string // "" where it was left alone
	Rows   int    // records under the header
	Header int32  // its row; 0 where there is none
	Hidden bool
}
