package table

import (
	"fmt"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// hidden notes what a spreadsheet program does not show of a sheet that is read.
func (r *reader) hidden(info sheets.Info, trailer *sheets.Trailer) {
	var what []string
	if info.Visibility != sheets.Visible {
		what = append(what, "the sheet is hidden")
	}
	if n := trailer.HiddenRows; n > 0 {
		what = append(what, fmt.Sprintf("%s hidden%s", plural(n, "row is", "rows are"), filtered(trailer)))
	}
	if n := len(trailer.HiddenCols); n > 0 {
		names := make([]string, n)
		for i, c := range trailer.HiddenCols {
			if names[i] = cell.Column(c.From.Col); c.To.Col > c.From.Col {
				names[i] += " to " + cell.Column(c.To.Col)
			}
		}
		what = append(what, "hidden columns: "+strings.Join(names, ", "))
	}
	if len(what) == 0 {
		return
	}
	r.report(&finding.Finding{Code: SheetHidden, Severity: finding.Note,
		Message: strings.Join(what, "; ") + "; all of it is read like the rest",
		Cells:   finding.At(cell.Place{Sheet: r.sheet})})
}

func filtered(t *sheets.Trailer) string {
	if t.Filtered {
		return " by a filter"
	}
	return ""
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
