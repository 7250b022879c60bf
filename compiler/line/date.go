package line

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

const secondsPerDay = 24 * 60 * 60

// days gives a day of the Gregorian calendar as the number of a Point.
func days(year, month, day int) int64 {
	return time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC).Unix() / secondsPerDay
}

// DayOf gives a day as a Point. It panics where the calendar has no such day.
func DayOf(year, month, day int) Point {
	if r, ok := dayRange(year, month, day); ok {
		return r.First()
	}
	panic("line: DayOf: no such day")
}

// Day gives the year, month and day of a Point that is a day.
func (p Point) Day() (year, month, day int) {
	y, m, d := time.Unix(p.N*secondsPerDay, 0).UTC().Date()
	return y, int(m), d
}

// dayRange is false where the calendar has no such day.
func dayRange(year, month, day int) (Range, bool) {
	if month < 1 || month > 12 || day < 1 || year < 1 || year > 9999 {
		return Range{}, false
	}
	n := days(year, month, day)
	if y, m, _ := (Point{N: n}).Day(); y != year || m != month {
		return Range{}, false
	}
	return Range{From: n, To: n}, true
}

// monthRange is false for a month that is none.
func monthRange(year, month int) (Range, bool) {
	first, ok := dayRange(year, month, 1)
	if !ok {
		return Range{}, false
	}
	return Range{From: first.From, To: days(year, month+1, 1) - 1}, true
}

var (
	isoDay    = regexp.MustCompile(`^(\d{4})-(\d{2})-(\d{2})$`)
	isoMonth  = regexp.MustCompile(`^(\d{4})-(\d{2})$`)
	slashed   = regexp.MustCompile(`^(\d{2})/(\d{4})$`)
	named     = regexp.MustCompile(`^(\pL+) (\d{4})$`)
	threefold = regexp.MustCompile(`^(\d{1,2})([./-])(\d{1,2})[./-](\d{4})$`)
	dayNamed  = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)?\.? (\pL+)\.?,? (\d{4})$`)
	namedDay  = regexp.MustCompile(`^(\pL+)\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})$`)
	dotted    = regexp.MustCompile(`^(\pL+)\. (\d{4})$`)
	backwards = regexp.MustCompile(`^(\d{4})([./-])(\d{1,2})(?:[./-](\d{1,2}))?$`)
	oneFold   = regexp.MustCompile(`^(\d{1,2})[./-](\d{4})$`)
	bareYear  = regexp.MustCompile(`^\d{4}$`)
)

// monthOf finds a month by its English name or the first three letters of that; 0 for none.
func monthOf(name string) int {
	for m := time.January; m <= time.December; m++ {
		if full := m.String(); strings.EqualFold(name, full) || strings.EqualFold(name, full[:3]) {
			return int(m)
		}
	}
	return 0
}

// parseDate reads a day or a month.
func parseDate(text string) (Range, error) {
	if m := isoDay.FindStringSubmatch(text); m != nil {
		if r, ok := dayRange(number(m[1]), number(m[2]), number(m[3])); ok {
			return r, nil
		}
		return Range{}, fmt.Errorf("%q is no day of the calendar; write year, month and day, such as 2009-03-15", text)
	}
	year, month := monthText(text)
	if year == 0 {
		return Range{}, noDate(text)
	}
	r, ok := monthRange(year, month)
	if !ok {
		return Range{}, fmt.Errorf("%q is no month of the calendar; write year and month, such as 2009-03", text)
	}
	return r, nil
}

// monthText reads a month; the year is 0 where the text is none.
func monthText(text string) (year, month int) {
	if m := isoMonth.FindStringSubmatch(text); m != nil {
		return number(m[1]), number(m[2])
	}
	if m := slashed.FindStringSubmatch(text); m != nil {
		return number(m[2]), number(m[1])
	}
	if m := named.FindStringSubmatch(text); m != nil {
		if month := monthOf(m[1]); month > 0 {
			return number(m[2]), month
		}
	}
	return 0, 0
}

// noDate says what to write instead of a text that is no date.
func noDate(text string) error {
	if m := threefold.FindStringSubmatch(text); m != nil {
		return threeNumbers(text, number(m[1]), number(m[3]), number(m[4]))
	}
	if instead := dateInstead(text); instead != "" {
		return fmt.Errorf("%q is not a date as it is written here; write %s", text, instead)
	}
	if bareYear.MatchString(text) {
		return fmt.Errorf("%q is a year and no date; write %s-01 to %s-12 where all of it is meant", text, text, text)
	}
	return fmt.Errorf("%q is not a date; write a day such as 2009-03-15, or a month such as 2009-03 or March 2009", text)
}

// threeNumbers tells of a day whose first two numbers may be in either order.
func threeNumbers(text string, a, b, year int) error {
	dayFirst, one := dayRange(year, b, a)
	monthFirst, other := dayRange(year, a, b)
	switch {
	case one && other && dayFirst != monthFirst:
		return fmt.Errorf("%q is %s to some and %s to others; write the one that is meant",
			text, Date.point(dayFirst.First()), Date.point(monthFirst.First()))
	case one:
		return fmt.Errorf("%q is not a date as it is written here; write %s", text, Date.point(dayFirst.First()))
	case other:
		return fmt.Errorf("%q is not a date as it is written here; write %s", text, Date.point(monthFirst.First()))
	}
	return fmt.Errorf("%q is no day of the calendar; write year, month and day, such as 2009-03-15", text)
}

// dateInstead gives a date that is written in another way as it is written here, "" where the
// text is none that can be meant in one way only.
func dateInstead(text string) string {
	day := func(year, month, day int) string {
		if r, ok := dayRange(year, month, day); ok {
			return Date.point(r.First())
		}
		return ""
	}
	month := func(year, month int) string {
		if r, ok := monthRange(year, month); ok {
			return Date.write(r)
		}
		return ""
	}
	if m := dayNamed.FindStringSubmatch(text); m != nil {
		return day(number(m[3]), monthOf(m[2]), number(m[1]))
	}
	if m := namedDay.FindStringSubmatch(text); m != nil {
		return day(number(m[3]), monthOf(m[1]), number(m[2]))
	}
	if m := dotted.FindStringSubmatch(text); m != nil {
		return month(number(m[2]), monthOf(m[1]))
	}
	if m := oneFold.FindStringSubmatch(text); m != nil {
		return month(number(m[2]), number(m[1]))
	}
	if m := backwards.FindStringSubmatch(text); m != nil {
		if m[4] != "" {
			return day(number(m[1]), number(m[3]), number(m[4]))
		}
		return month(number(m[1]), number(m[3]))
	}
	return ""
}

// number reads digits, of which there are few.
func number(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil {
		panic("line: number: not digits")
	}
	return n
}

// Around gives the month of a day, and of a number itself: what a cell that states it may mean.
func (k Kind) Around(p Point) Range {
	if k != Date {
		return One(p)
	}
	year, month, _ := p.Day()
	r, _ := monthRange(year, month)
	return r
}
