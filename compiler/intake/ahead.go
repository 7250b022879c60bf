package intake

import (
	"fmt"
	"slices"
	"strconv"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// mostAhead is by how many years a model year may be ahead of the calendar.
const mostAhead = 2

// Ahead finds model years that are too far ahead of today, each cell once. A year that a
// platform has is told there alone. Without a date nothing is found.
func Ahead(tables []*table.Table, today string) (out []*finding.Finding) {
	if len(today) < 4 {
		return nil
	}
	now, err := strconv.Atoi(today[:4])
	if err != nil {
		return nil
	}
	told := map[int]bool{}
	for _, platforms := range []bool{true, false} {
		for _, t := range tables {
			if (t.Kind == schema.Platforms) == platforms && t.Kind != schema.Accepted {
				out = append(out, aheadIn(t, now, told)...)
			}
		}
	}
	return out
}

// NotOutside leaves out what is told as a year that the platform does not have.
func NotOutside(late, others []*finding.Finding) []*finding.Finding {
	outside := map[cell.Place]bool{}
	for _, f := range others {
		if f.Code == finding.YearsOutside {
			outside[f.Cells[0].Place] = true
		}
	}
	return slices.DeleteFunc(late, func(f *finding.Finding) bool { return outside[f.Cells[0].Place] })
}

func aheadIn(t *table.Table, now int, told map[int]bool) (out []*finding.Finding) {
	col := -1
	for i := range t.Columns {
		if c := &t.Columns[i]; c.Known && c.Name == "Years" {
			col = i
		}
	}
	if col < 0 {
		return nil
	}
	for i := range t.Records {
		for _, f := range t.Records[i].Fields {
			if int(f.Column) != col || f.Broken || f.At.Row != t.Records[i].Row {
				continue
			}
			if year := latest(f.Text); year > now+mostAhead && !told[year] {
				told[year] = told[year] || t.Kind == schema.Platforms
				out = append(out, &finding.Finding{Code: finding.YearsAhead, Severity: finding.Warning,
					Message:  fmt.Sprintf("%d is more than %d years ahead of %d", year, mostAhead, now),
					Constant: fmt.Sprintf("%d is too far ahead", year),
					Cells:    finding.At(t.Place(f.At)),
					Fix:      "look the year up, and correct it"})
			}
		}
	}
	return out
}

// latest gives the latest of the years in a cell, 0 for none: a year has four digits.
func latest(text string) int {
	most, n, year := 0, 0, 0
	for i := 0; i <= len(text); i++ {
		if i < len(text) && text[i] >= '0' && text[i] <= '9' {
			if n++; n <= 4 {
				year = 10*year + int(text[i]-'0')
			}
			continue
		}
		if n == 4 {
			most = max(most, year)
		}
		n, year = 0, 0
	}
	return most
}
