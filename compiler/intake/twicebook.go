package intake

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/sheets/cell"
)

// books are two workbooks, the one with the plainer name first.
type books struct{ first, second string }

func booksOf(a, b *cell.Sheet) books {
	if a.File != b.File && len(b.File) < len(a.File) {
		a, b = b, a
	}
	return books{a.File, b.File}
}

// leastSheets is how many sheets of two workbooks must share rows, where no sheet is the
// other's by itself: one that all workbooks have, as Settings, is no copy of any.
const leastSheets = 2

// alike gives the twins of two workbooks that are nearly the same, with their other sheets of
// one name; nil where they are not. Twins are those that are known. Small sheets, which
// may be alike by chance one by one, count together.
func (r *Reader) alike(key books, twins []*twin) []*twin {
	if key.first == key.second {
		return nil
	}
	all := append(slices.Clone(twins), r.namesakes(key.first, key.second, twins)...)
	common, sheets := 0, 0
	for _, t := range all {
		common += t.common
		if t.common > 0 {
			sheets++
		} else if len(twins) == 0 && min(len(t.first.rows), len(t.second.rows)) >= leastAlike {
			return nil // each has its own to say
		}
	}
	if 2*common <= r.rowsOf(key.second) {
		return nil
	}
	if len(twins) == 0 && (sheets < leastSheets || common < leastAlike || 2*common <= r.rowsOf(key.first)) {
		return nil
	}
	return all
}

// rowsOf counts the rows of a workbook.
func (r *Reader) rowsOf(file string) int {
	n := 0
	for _, t := range r.Tables {
		if t.Sheet.File == file {
			n += len(t.Records)
		}
	}
	return n
}

// bookTwice tells of two workbooks with these twins among their sheets.
func (r *Reader) bookTwice(twins []*twin) *finding.Finding {
	first, second := twins[0].first.Sheet.File, twins[0].second.Sheet.File
	alike := map[*table.Table]bool{}
	var at cell.Place
	rows, differ := 0, 0
	for _, t := range twins {
		alike[t.first.Table], alike[t.second.Table] = true, true
		rows, differ = rows+max(len(t.first.rows), len(t.second.rows)), differ+t.differ
		if at.Sheet == nil {
			at = t.at
		}
	}
	for _, t := range r.Tables {
		if n := len(t.Records); n > 0 && !alike[t] && (t.Sheet.File == first || t.Sheet.File == second) {
			rows, differ = rows+n, differ+n
			if at.Sheet == nil {
				at = t.First(&t.Records[0])
			}
		}
	}
	f := twice(fmt.Sprintf("the workbooks %s and %s", first, second), differ, rows, at)
	f.Cells = append(finding.At(cell.Place{Sheet: &cell.Sheet{File: second}}, cell.Place{Sheet: &cell.Sheet{File: first}}), f.Cells...)
	f.Fix = "delete the one that does not hold, or move it out of the folder; until then the one with the longer name is not read"
	return f
}

// namesakes compares the other sheets of two workbooks that have one name in both, however
// little they share.
func (r *Reader) namesakes(first, second string, but []*twin) []*twin {
	others := func(file string) map[string]*table.Table {
		out := map[string]*table.Table{}
		for _, t := range r.Tables {
			if t.Sheet.File == file && !slices.ContainsFunc(but, func(w *twin) bool { return w.first.Table == t || w.second.Table == t }) {
				out[t.Sheet.Name] = t
			}
		}
		return out
	}
	theirs, ours := others(first), others(second)
	var out []*twin
	for _, t := range r.Tables {
		other := theirs[t.Sheet.Name]
		if ours[t.Sheet.Name] != t || other == nil || other.Kind != t.Kind || len(other.Records) == 0 || len(t.Records) == 0 {
			continue
		}
		w, _ := twinOf(sumsOf(other), sumsOf(t))
		w.locate()
		out = append(out, w)
	}
	return out
}
