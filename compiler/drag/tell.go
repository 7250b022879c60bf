package drag

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Code is that of what this package tells.
const Code = finding.CellDragged

// Kinds describes the code.
func Kinds() []finding.Kind {
	return []finding.Kind{{Code: Code, Severity: "warning, error where the dragged value changes which cell decides or says what nothing declares",
		Summary: "a number climbs by one from row to row, as dragging a cell makes it",
		Doc:     "Pulling the corner of a cell down copies it in one program and counts up in another. Told are three or more rows one below the other in which one end of the years climbs while the other stays, both climb, or a precedence climbs; and a part, a platform, a size, a single year or a measured value that climbs while what stands beside it stays the same. A sheet with a row for each year, and a list in the order of its numbers, are not told, and neither is a ladder of exceptions, each within the row above. It is an error where the climbing precedence or year changes which cell decides on a vehicle that exists, and where names come of it that nothing declares, which are then not told one by one. With --since a fill is also told by what it went over: in two rows or more, one below the other, a column now says what the cell above them (or below) says and has said, or climbs by one from it, the earlier release had two different texts or more there, and nothing else in these rows has changed; a number that climbs over one text takes three rows. Not told are blanks alone that are filled, a text that went from everywhere, and parts that are no longer current. Where it is meant, accept it, or write the rows in another order.",
		Before:  "Fitment!N4  10\nFitment!N5  11\nFitment!N6  12",
		After:   "Fitment!N4  10\nFitment!N5  10\nFitment!N6  10"}}
}

// follow holds the codes of findings that a dragged cell brings with it.
var follow = map[finding.Code]bool{
	"part-unknown": true, "reference-unknown": true, "condition-malformed": true, "fitment-malformed": true, "years-outside": true,
	"years-ahead": true, "size-unusual": true, "size-malformed": true, "size-unitless": true, "quantity-malformed": true, "value-invalid": true,
}

// Fold tells the runs, and takes those findings out of the others that a dragged cell has
// brought with it.
func Fold(runs []*Run, cat *model.Catalogue, others []*finding.Finding) []*finding.Finding {
	if len(runs) == 0 {
		return others
	}
	brought := gather(runs, others)
	rows := newRows(cat, runs)
	gone := map[*finding.Finding]bool{}
	var told []*finding.Finding
	for _, r := range runs {
		f := rows.tell(r, brought[r])
		if f == nil {
			continue
		}
		told = append(told, f)
		for _, o := range brought[r] {
			gone[o] = true
		}
	}
	return append(slices.DeleteFunc(others, func(f *finding.Finding) bool { return gone[f] }), told...)
}

// gather gives the findings at the cells of each run, but for its first one, which is what
// was dragged.
func gather(runs []*Run, others []*finding.Finding) map[*Run][]*finding.Finding {
	at := map[cell.Place]*Run{}
	for _, r := range runs {
		for _, c := range r.Cells[1:] {
			at[c] = r
		}
	}
	out := map[*Run][]*finding.Finding{}
	for _, f := range others {
		if follow[f.Code] && len(f.Cells) > 0 {
			if r := at[f.Cells[0].Place]; r != nil {
				out[r] = append(out[r], f)
			}
		}
	}
	return out
}

// leastBrought is how many findings make a run that is not suspicious by itself one.
const leastBrought = 2

func (rs *rows) tell(r *Run, brought []*finding.Finding) *finding.Finding {
	if !r.Told && (len(brought) < leastBrought && (!r.Same || len(brought) == 0)) {
		return nil
	}
	effect := rs.effect(r)
	if effect == ladder && len(brought) == 0 {
		return nil
	}
	f := &finding.Finding{Code: Code, Severity: finding.Warning, Cells: finding.At(r.Cells...),
		Message: fmt.Sprintf("%s climbs by one from %s to %s over %d rows, as dragging a cell makes it", r.Column, word.Quote(r.Texts[0]), word.Quote(r.Texts[len(r.Texts)-1]), len(r.Texts)),
		Gist:    fmt.Sprintf("%s climbs by one from %s to %s, as dragging a cell makes it", r.Column, word.Quote(r.Texts[0]), word.Quote(r.Texts[len(r.Texts)-1])),
		Fix:     fmt.Sprintf("write %s in each row if that was meant, or what each row's own value is", word.Quote(r.Texts[0]))}
	if effect == decides {
		f.Severity = finding.Error
		f.Message += ", and that changes which cell decides"
	}
	for _, o := range brought {
		f.Severity = max(f.Severity, o.Severity)
	}
	if len(brought) > 0 {
		f.Message += "; " + brought[0].Message
	}
	return f
}
