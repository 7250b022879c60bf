package mistakes

import "slices"

// inSheets are mistakes with sheets, headings and rows.
func inSheets() []mistake {
	return slices.Concat(inRows(), inSheetNames(), inHeadings())
}
