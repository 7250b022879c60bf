package table

import (
	"fmt"
	"strings"

	"ferrule/compiler/intake/table/shown"
	"ferrule/compiler/measure"
)

// unit gives the unit in which a number of the column is read: that of the header, a plain
// number in the columns of counts that sheets define, NoUnit where nobody says.
func (j *judge) unit() measure.Unit {
	if j.column.Known && j.role == amount {
		return measure.One
	}
	u, _ := measure.ParseUnit(j.column.Unit)
	return u
}

// shownUnit gives the unit that a format writes beside the number, NoUnit for none.
func shownUnit(look shown.Look) measure.Unit {
	for _, text := range look.Beside {
		if u, ok := measure.ParseUnit(text); ok {
			return u
		}
	}
	return measure.NoUnit
}

// ownUnit tells whether a format shows the unit of the header beside the number.
func (j *judge) ownUnit(look shown.Look) bool {
	u := shownUnit(look)
	return u != measure.NoUnit && u == j.unit()
}

// otherwise reports a number whose format shows it in another unit than it is read in, or
// scaled, in columns where numbers are values. known is false for a format that is not
// understood, of which only the texts in quotation marks are.
func (j *judge) otherwise(look shown.Look, known bool) bool {
	if j.role != amount && j.role != size && j.role != property {
		return false
	}
	unit, shows := shownUnit(look), look.Text
	if !known {
		unit, shows = j.quoted()
	}
	switch bare := j.role == property; {
	case shows == "" || look.Percent && bare: // the text of a property, told as one that reads otherwise
		return false
	case look.Scaled, look.Percent:
		j.share(j.Format, "are shown by a number format as other numbers than they hold", manyCells)
		j.mangled(shows, fmt.Sprintf("set the cell's format to General and type %s, or %s if that is meant", j.Text, strings.TrimSuffix(shows, "%")))
	case unit == measure.NoUnit || unit == j.unit():
		return false
	case j.column.Unit == "" && !(j.column.Known && j.role == amount):
		j.share(symbol(unit), "are shown in another unit than they are read in", 2)
		j.mangled(shows, fmt.Sprintf("set the cell's format to text and type %s %s, or write [%s] behind the column's header", j.Text, symbol(unit), symbol(unit)))
	default:
		j.share(symbol(unit), "are shown in another unit than they are read in", 2)
		j.mangled(shows, fmt.Sprintf("set the cell's format to text and type %s %s, or to General if %s is meant", j.Text, symbol(unit), j.read()))
	}
	return true
}

// quoted gives another unit than that of the header which a format writes of which nothing
// else is known, and what it shows.
func (j *judge) quoted() (measure.Unit, string) {
	for _, text := range shown.Quoted(j.Format) {
		if unit, ok := measure.ParseUnit(text); ok && unit != j.unit() {
			return unit, j.Text + " " + symbol(unit)
		}
	}
	return measure.NoUnit, ""
}

// symbol writes a unit as a cell may have it; that of a count is left out elsewhere.
func symbol(u measure.Unit) string {
	if u == measure.One {
		return "pcs"
	}
	return u.String()
}

// read says what a number of the column is read as.
func (j *judge) read() string {
	if u := j.unit(); u != measure.NoUnit && u != measure.One {
		return j.Text + " " + u.String()
	}
	return j.Text
}

func (j *judge) mangled(shows, fix string) {
	message := fmt.Sprintf("the cell shows %s and holds the number %s, which is what is read", shows, j.Text)
	if read := j.read(); read != j.Text {
		message = fmt.Sprintf("the cell shows %s and holds the number %s, which is read as %s", shows, j.Text, read)
	}
	j.say(NumberMangled, message, fix)
}
