package gaps

import (
	"strings"

	"ferrule/compiler/bind"
	"ferrule/compiler/model"
)

// Paste gives a box of vehicles as rows of a Fitment sheet: its header, and one row, or several
// where one cell cannot say all values.
func (r *Reader) Paste(p *model.Platform, b model.Box) (header []string, rows [][]string) {
	header, rows = []string{"Platform"}, [][]string{{p.Name}}
	if b.Years != nil {
		header = append(header, "Years")
		rows[0] = append(rows[0], bind.YearCell(b.Years))
	}
	for _, t := range b.Traits {
		header = append(header, t.Trait.Name)
		var longer [][]string
		for _, row := range rows {
			for _, text := range r.words.Cells(t) {
				longer = append(longer, append(row[:len(row):len(row)], text))
			}
		}
		rows = longer
	}
	return header, rows
}

// Try writes a row of Paste as one to be tried, with PART where its part is to stand.
func Try(position string, header, row []string) string {
	conditions := make([]string, len(header))
	for i, name := range header {
		conditions[i] = name + " = " + row[i]
	}
	return "PART in " + position + " where " + strings.Join(conditions, ", ")
}
