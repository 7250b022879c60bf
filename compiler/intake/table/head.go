package table

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// headerRows is how far down a sheet its header may stand.
const headerRows = 20

// empty reports a sheet that holds nothing.
func (r *reader) empty() {
	r.report(&Fault{What: NoHeader,
		Message: fmt.Sprintf("the sheet is empty; write a header with %s", quoted(r.layout.Required)),
		Cells:   []cell.Place{{Sheet: r.sheet}}})
}

// headless reports that none of the first twenty rows is a header.
func (r *reader) headless() {
	first := func(i int) []cell.Place {
		return []cell.Place{{Sheet: r.sheet, Pos: cell.Pos{Row: r.above[i].number, Col: r.above[i].cells[0].Col}}}
	}
	if i := slices.IndexFunc(r.above, func(w row) bool { return w.number > headerRows }); i >= 0 {
		for ; i < len(r.above); i++ {
			if len(r.missing(i)) > 0 {
				continue
			}
			r.report(&Fault{What: NoHeader,
				Message:  fmt.Sprintf("the header stands in row %d, and it is looked for in the first %d rows", r.above[i].number, headerRows),
				Constant: fmt.Sprintf("the header does not stand in the first %d rows", headerRows),
				Cells:    first(i),
				Fix:      "move what stands above it to a sheet whose name starts with _"})
			return
		}
	}
	missing := r.missing(0)
	r.report(&Fault{What: NoHeader,
		Message: fmt.Sprintf("no row among the first %d is the header of this %s sheet: the first row that is not empty has no column %s%s",
			headerRows, schema.Title(r.layout.Kind), quoted(missing), r.nearMiss(missing)),
		Constant: fmt.Sprintf("no row is the header of this %s sheet: %s missing", schema.Title(r.layout.Kind), quoted(missing)),
		Cells:    first(0),
		Fix:      "write the column's name into the header row, as it stands here"})
}

// missing gives the required columns that a row above the table lacks.
func (r *reader) missing(i int) []string {
	var out []string
	names := map[string]bool{}
	for _, c := range r.headerCells(i) {
		name, _ := header(c.Text)
		names[word.Fold(name)] = true
	}
	for _, want := range r.layout.Required {
		if !names[word.Fold(want)] {
			out = append(out, want)
		}
	}
	return out
}

// nearMiss names a header of the first row that is probably a misspelt required column.
func (r *reader) nearMiss(missing []string) string {
	if said := r.split(missing); said != "" {
		return said
	}
	for _, c := range r.above[0].cells {
		name, _ := header(c.Text)
		if n := word.Nearest(name, missing); n != "" {
			at := cell.Pos{Row: r.above[0].number, Col: c.Col}
			return fmt.Sprintf(" (%s says %q: did you mean %s?)", at, c.Text, n)
		}
	}
	return ""
}

// ends are headings of a column that holds one end of a range of years.
var ends = [...]string{"from", "to", "year from", "year to", "years from", "years to", "from year", "to year", "start", "end", "start year", "end year",
	"first year", "last year", "first", "last", "begin", "until", "till"}

// split names two headings of the first row that stand in place of Years.
func (r *reader) split(missing []string) string {
	if !slices.Contains(missing, "Years") {
		return ""
	}
	var found []string
	for _, c := range r.above[0].cells {
		if slices.Contains(ends[:], word.Fold(c.Text)) {
			found = append(found, fmt.Sprintf("%s says %q", cell.Pos{Row: r.above[0].number, Col: c.Col}, c.Text))
		}
	}
	if len(found) == 0 {
		return ""
	}
	return fmt.Sprintf(" (%s: write both ends into one column Years, as 2007-2012)", strings.Join(found, " and "))
}

// headerCells gives the cells of a row above the table with merged ranges applied.
func (r *reader) headerCells(i int) []sheets.Cell {
	cells := slices.Clone(r.above[i].cells)
	for _, m := range r.merges {
		n := r.above[i].number
		if n < m.From.Row || n > m.To.Row {
			continue
		}
		first, ok := r.at(m.From)
		if !ok {
			continue
		}
		// Beyond the columns that the format knows, a merged title says nothing new.
		for col := m.From.Col; col <= min(m.To.Col, m.From.Col+256); col++ {
			at := sort.Search(len(cells), func(k int) bool { return cells[k].Col >= col })
			switch {
			case at == len(cells) || cells[at].Col != col:
				cells = slices.Insert(cells, at, sheets.Cell{Col: col, Value: first})
			default:
				cells[at].Value = first // what stands under the merge cannot be seen
			}
		}
	}
	return cells
}

// at gives the stored value of one cell above the table.
func (r *reader) at(p cell.Pos) (sheets.Value, bool) {
	i := sort.Search(len(r.above), func(k int) bool { return r.above[k].number >= p.Row })
	if i == len(r.above) || r.above[i].number != p.Row {
		return sheets.Value{}, false
	}
	return under(r.above[i].cells, p.Col)
}

// under finds the cell of a column.
func under(cells []sheets.Cell, col int32) (sheets.Value, bool) {
	i := sort.Search(len(cells), func(k int) bool { return cells[k].Col >= col })
	if i == len(cells) || cells[i].Col != col {
		return sheets.Value{}, false
	}
	return cells[i].Value, true
}

// header splits a header cell into its name and the unit in square brackets.
func header(text string) (name, unit string) {
	name = strings.Join(strings.Fields(text), " ")
	if strings.HasSuffix(name, "]") {
		if i := strings.LastIndexByte(name, '['); i > 0 {
			return strings.TrimSpace(name[:i]), strings.TrimSpace(name[i+1 : len(name)-1])
		}
	}
	return name, ""
}

// Split gives the name and the unit that a header cell with this text gives its column.
func Split(text string) (name, unit string) { return header(text) }

// Head gives the name that a header cell with this text gives its column.
func Head(text string) string {
	name, _ := header(text)
	return name
}

func quoted(names []string) string {
	q := make([]string, len(names))
	for i, n := range names {
		q[i] = fmt.Sprintf("%q", n)
	}
	return strings.Join(q, ", ")
}
