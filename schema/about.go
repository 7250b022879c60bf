package schema

import (
	"strings"
	"sync"
)

// More is what a column is that its kind of sheet does not define.
type More uint8

// Further columns of the kinds.
const (
	MoreChoice   More = iota + 1 // a trait whose values have no order, or of which that is not known
	MoreOrdered                  // a trait whose values have one, or are sizes
	MoreSerial                   // a trait whose values are serial numbers
	MoreDate                     // a trait whose values are dates
	MoreVehicles                 // a trait on the sheet of the vehicles that exist
	MorePosition                 // what fits at a position
	MoreNote                     // a note on that
	MoreFact                     // a fact
	MoreProperty                 // a property of parts
)

// moreAbout is About for them.
var moreAbout = [...]string{
	MoreChoice:   "Which vehicles the row is about, by this trait: a value, several (A, B), or all but some (not A). Blank means any.",
	MoreOrdered:  "Which vehicles the row is about, by this trait: a value, several (A, B), all but some (not A), or a stretch (from A, to B). Blank means any.",
	MoreSerial:   "Which vehicles the row is about, by this number: 41000, 41000-49999, 41000+ or to 40999. Blank means any.",
	MoreDate:     "Which vehicles the row is about, by this date: 2019-03, 2019-03-15, from 2019-03 or to 2019-02. Blank means any.",
	MoreVehicles: "Which values of this trait these vehicles have: one, several (A, B) or any. Blank, or n/a, means that it does not apply to them.",
	MorePosition: "What fits at this position: a part, a choice with the better one first (A or B), parts together (2 x A + B), none and the reason, planned, ask and what to find out, or with and another position.",
	MoreNote:     "A text that guides print beside what fits at this position.",
	MoreFact:     "A fact about these vehicles: a number in the unit of the heading, or a number with its unit.",
	MoreProperty: "A property of the parts. With a unit in square brackets behind its name it is a measured value; texts are for you only unless Settings publish them.",
}

// About says what is written in such a column.
func (m More) About() string { return moreAbout[m] }

// Explains tells whether a text is what About says of some column, whatever the white space in it. A note
// that says this and no more holds nothing that the program does not know.
func Explains(text string) bool { return explanations()[spaced(text)] }

var explanations = sync.OnceValue(func() map[string]bool {
	out := map[string]bool{}
	for _, kind := range Kinds() {
		for _, c := range Columns(kind) {
			out[spaced(c.About)] = true
		}
	}
	for _, text := range moreAbout {
		out[spaced(text)] = true
	}
	delete(out, "")
	return out
})

func spaced(text string) string { return strings.Join(strings.Fields(text), " ") }
