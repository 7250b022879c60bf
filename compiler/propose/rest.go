package propose

import (
	"fmt"

	"ferrule/schema/word"
)

// rest writes what is left out on purpose, and remarks on what is not read.
func (r *reading) rest() {
	r.titles()
	for _, c := range r.all {
		if c.Filled == 0 {
			continue
		}
		switch c.role {
		case Running:
			r.skip(c, "a running number of rows says nothing of parts or vehicles")
		case Quantity:
			if r.place.of != nil {
				r.skip(c, "how many are fitted stands under Quantity of the drafted Positions")
			}
		case Maker:
			r.skip(c, "who makes a vehicle stands under Maker of the drafted Platforms")
		case Unclear, Property, Family, Name, Other, Source, Replaced, Kit, Place, Note:
			if !r.used(c) {
				r.unreadColumn(c)
			}
		}
	}
	r.sections()
}

// used tells whether some rule is about a column.
func (r *reading) used(c *column) bool {
	where := r.where(c)
	for _, rule := range r.rules {
		if rule.Where == where && (rule.Word == "is" || rule.Word == "skip") {
			return true
		}
	}
	return false
}

// unreadColumn remarks on a column of which nothing is read.
func (r *reading) unreadColumn(c *column) {
	says := trimmed(c.Values[0].Text)
	means := "no row of Layouts is proposed for the column " + word.Quote(c.whole()) + ", since nothing says what it is; its cells will be told as unclaimed"
	if openYears(c.Head()) {
		means = "years of which one column is the first and another the last are not proposed: " + means
	}
	r.remark(places(c.Values), says, means, fmt.Sprintf("a row of Layouts: is, %s, and the column that it holds (a trait where it tells vehicles apart); or skip, %s, where it says nothing of what fits", r.where(c), r.where(c)))
}
