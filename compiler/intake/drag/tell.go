package drag

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// follow holds the codes of findings that a dragged cell brings with it.
var follow = map[finding.Code]bool{
	finding.PartUnknown: true, finding.ReferenceUnknown: true, finding.ConditionMalformed: true, finding.FitmentMalformed: true, finding.YearsOutside: true,
	finding.YearsAhead: true, finding.SizeUnusual: true, finding.SizeMalformed: true, finding.SizeUnitless: true, finding.QuantityMalformed: true, finding.ValueInvalid: true,
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
	f := &finding.Finding{Code: finding.CellDragged, Severity: finding.Warning, Cells: finding.At(r.Cells...),
		Message:  fmt.Sprintf("%s climbs by one from %s to %s over %d rows, as dragging a cell makes it", r.Column, word.Quote(r.Texts[0]), word.Quote(r.Texts[len(r.Texts)-1]), len(r.Texts)),
		Constant: fmt.Sprintf("%s climbs by one from %s to %s, as dragging a cell makes it", r.Column, word.Quote(r.Texts[0]), word.Quote(r.Texts[len(r.Texts)-1])),
		Fix:      fmt.Sprintf("write %s in each row if that was meant, or what each row's own value is", word.Quote(r.Texts[0]))}
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
