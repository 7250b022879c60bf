package drag

import "ferrule/compiler/finding"

// Kinds describes the code.
func Kinds() []finding.Kind {
	return []finding.Kind{{Code: finding.CellDragged, Severity: "warning, error where the dragged value changes which cell decides or says what nothing declares",
		Summary: "a number climbs by one from row to row, as dragging a cell makes it",
		Doc:     "Pulling the corner of a cell down copies it in one program and counts up in another. Told are three or more rows one below the other in which one end of the years climbs while the other stays, both climb, or a precedence climbs; and a part, a platform, a size, a single year or a measured value that climbs while what stands beside it stays the same. A sheet with a row for each year, and a list in the order of its numbers, are not told, and neither is a ladder of exceptions, each within the row above. It is an error where the climbing precedence or year changes which cell decides on a vehicle that exists, and where names come of it that nothing declares, which are then not told one by one. With --since a fill is also told by what it went over: in two rows or more, one below the other, a column now says what the cell above them (or below) says and has said, or climbs by one from it, the earlier release had two different texts or more there, and nothing else in these rows has changed; a number that climbs over one text takes three rows. Not told are blanks alone that are filled, a text that went from everywhere, and parts that are no longer current. Where it is meant, accept it, or write the rows in another order.",
		Before:  "Fitment!N4  10\nFitment!N5  11\nFitment!N6  12",
		After:   "Fitment!N4  10\nFitment!N5  10\nFitment!N6  10"}}
}
