package sheets

import (
	"slices"
	"strconv"
	"strings"
)

// section is one section of a number format: which numbers it is for, and what it holds
// outside quotes and escapes.
type section struct {
	letters bool // letters of dates and times
	day     bool // a day, a year, an era, the name of a weekday
	month   bool // m: a month, or minutes where clock
	clock   bool // hours, seconds, AM/PM, elapsed time
	elapsed bool // hours, minutes or seconds that go on beyond a day, a minute: [h]
	digits  bool // digit placeholders other than fractions of seconds
	text    bool // @
	when    condition
}

// dates tells whether the section shows a date or a time.
func (s *section) dates() bool { return s.letters && !s.digits }

// dated tells whether it names a day, a month or a year and not only a time.
func (s *section) dated() bool { return s.day || s.month && !s.clock }

// condition is in which case a section holds: [>=100]. The zero value is none.
type condition struct {
	sign string
	than float64
}

func (c condition) holds(f float64) bool {
	switch c.sign {
	case "<":
		return f < c.than
	case "<=":
		return f <= c.than
	case ">":
		return f > c.than
	case ">=":
		return f >= c.than
	case "=":
		return f == c.than
	}
	return f != c.than
}

// parseCondition reads what stands in brackets; ok is false for colours and all else.
func parseCondition(inside string) (c condition, ok bool) {
	for _, sign := range []string{"<=", ">=", "<>", "<", ">", "="} {
		number, is := strings.CutPrefix(inside, sign)
		if !is {
			continue
		}
		than, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		return condition{sign, than}, err == nil
	}
	return condition{}, false
}

// sections reads a code. Those for numbers get the conditions that they have by their places
// where they state none: of two the first is for what is not negative, of more the first
// for positive and the second for negative numbers; the last is for all that is left.
func sections(code string) []section {
	var all []section
	const enough = 4 // more mean no more than so many
	for more := code != ""; more && len(all) < enough; {
		var s section
		code, more = s.read(code)
		all = append(all, s)
	}
	if n := len(all); n > 3 {
		all = all[:3] // the fourth is for text
	} else if n > 1 && all[n-1].text {
		all = all[:n-1]
	}
	for i := range all {
		switch {
		case all[i].when.sign != "":
		case i == 0 && len(all) == 2:
			all[i].when = condition{">=", 0}
		case i == 0:
			all[i].when = condition{">", 0}
		default:
			all[i].when = condition{"<", 0}
		}
	}
	return all
}

// sectionOf gives the section that shows a number; nil where there are none.
func sectionOf(all []section, f float64) *section {
	if len(all) == 0 {
		return nil
	}
	last := len(all) - 1
	if i := slices.IndexFunc(all[:last], func(s section) bool { return s.when.holds(f) }); i >= 0 {
		last = i
	}
	return &all[last]
}
