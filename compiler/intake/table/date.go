package table

import (
	"fmt"
	"strconv"
	"strings"

	"ferrule/compiler/measure"
	"ferrule/schema"
)

// date reports a date where none belongs. Text may mention a date, if it is written
// out: what was turned into one as it was typed shows no year, or no day.
func (j *judge) date() {
	f := j.Value
	if j.role == day {
		return
	}
	d := stamped(f.Text, f.Format, f.Number)
	if (j.role == prose || j.role == property) && d.show && d.showMonth && d.showYear {
		return
	}
	if j.role == value {
		j.onLine = d.onLine()
	}
	what := "date"
	if d.year == 0 {
		what = "time"
	}
	holds := fmt.Sprintf("the cell holds the %s %s", what, f.Text)
	if j.role == years || j.role == amount || j.role == property {
		j.share("date "+f.Format, "hold dates", manyCells)
	}
	if j.role == years && f.Format != "" {
		holds += fmt.Sprintf(", with the number format %s", f.Format)
	}
	j.dated(holds, j.meant(d))
}

// dated reports a date with what was typed in its place, as far as that can be told.
func (j *judge) dated(holds string, meant []string) {
	j.typed = meant
	format := "text"
	if j.role == amount && !j.inches() {
		format = "General"
	}
	j.say(DateMangled,
		holds+", which is probably not what was typed"+orElse(meant, "; was it %s?"),
		fmt.Sprintf("set the cell's format to %s, then type %s", format, either(meant, "the value again")))
}

func orElse(words []string, format string) string {
	if len(words) == 0 {
		return ""
	}
	return fmt.Sprintf(format, strings.Join(words, " or "))
}

func either(words []string, otherwise string) string {
	if len(words) == 0 {
		return otherwise
	}
	return strings.Join(words, " or ")
}

// meant guesses what was typed and became this date, the likeliest first.
func (j *judge) meant(d stamp) []string {
	if serial := strconv.FormatFloat(d.serial, 'f', -1, 64); d.year == 0 || j.role == amount {
		if d.year != 0 && j.inches() {
			return append(d.sizes(), serial)
		}
		return []string{serial}
	}
	switch j.role {
	case years:
		return d.years()
	case code, name:
		return append(d.joined(), whole(d.serial)...)
	}
	unit := " in"
	if j.column.Unit != "" {
		unit = ""
	}
	if sizes := d.sizes(); len(sizes) > 0 {
		for i := range sizes {
			sizes[i] += unit
		}
		return sizes
	}
	switch {
	case j.role == size:
		return d.decimal()
	case j.role == value && j.reader.layout.Kind == schema.Fitment:
		return append(d.joined(), whole(d.serial)...)
	case j.role == value:
		return d.joined()
	}
	return nil
}

// inches tells whether the column holds fractions, which are typed like dates.
func (j *judge) inches() bool {
	u, _ := measure.ParseUnit(j.column.Unit)
	return u == measure.Inch
}

// textDate reports a date that came as text, by way of a format without types.
func (j *judge) textDate(s string) bool {
	d := stamp{format: "mmm"}
	if m := asISO.FindStringSubmatch(s); m != nil {
		d = stamped(s, "yyyy-mm-dd", 0)
		d.format = "mm-dd-yy" // the order in which it was typed is not to be seen
	} else if m := asDay.FindStringSubmatch(s); m != nil {
		d.day, _ = strconv.Atoi(m[1])
		d.month, d.show, d.showMonth = monthOf(m[2]), true, true
		d.year = 2000
	} else if m := asMonth.FindStringSubmatch(s); m != nil {
		if j.role == years && len(m[2]) == 4 {
			return false // a month that someone wrote
		}
		yy, _ := strconv.Atoi(m[2])
		d.year, d.month, d.day = century(yy), monthOf(m[1]), 1
		d.showYear, d.showMonth = true, true
	}
	if d.month < 1 || d.month > 12 || d.day < 1 || d.day > 31 {
		return false
	}
	j.dated(fmt.Sprintf("the cell holds the text %q", s), j.meant(d))
	return true
}

// century completes a year of two digits as spreadsheet programs do, from 1930 to 2029
// (from memory).
func century(yy int) int {
	switch {
	case yy >= 100:
		return yy
	case yy < 30:
		return 2000 + yy
	}
	return 1900 + yy
}
