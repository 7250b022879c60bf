package table

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// stamp is what a date consists of and which parts of it its cell shows.
type stamp struct {
	year, month, day          int
	showYear, showMonth, show bool // show: the day
	serial                    float64
	format                    string
}

// stamped takes a date apart. A time without a date has no year.
func stamped(iso, format string, serial float64) stamp {
	f := letters(format)
	d := stamp{serial: serial, format: f}
	if n, _ := fmt.Sscanf(iso, "%4d-%2d-%2d", &d.year, &d.month, &d.day); n != 3 || d.month < 1 || d.month > 12 {
		return stamp{serial: serial, format: f}
	}
	d.show, d.showMonth, d.showYear = strings.Contains(f, "d"), strings.Contains(f, "m"), strings.ContainsAny(f, "ye")
	return d
}

// onLine is the date as it is written in a column of dates: a month where the cell shows no day.
// It is "" where the cell shows no month, or holds an hour as well.
func (d stamp) onLine() string {
	switch {
	case d.year == 0 || !d.showMonth || !d.showYear || math.Trunc(d.serial) != d.serial:
		return ""
	case d.show:
		return fmt.Sprintf("%04d-%02d-%02d", d.year, d.month, d.day)
	}
	return fmt.Sprintf("%04d-%02d", d.year, d.month)
}

// letters gives what a date's format shows, without texts, locales and colours.
func letters(format string) string {
	return strings.ToLower(aside.ReplaceAllString(format, ""))
}

var aside = regexp.MustCompile(`"[^"]*"?|\[[^\]]*\]?|\\.`)

// sizes are the fractions of an inch that become the date: numerator and denominator
// are the day and the month in either order, or the month and the last two digits of
// the year where the denominator can be no day of a month; with a whole number before
// them, day, month and year.
func (d stamp) sizes() []string {
	var out []string
	yy := d.year % 100
	byMonth := d.day == 1 && d.showYear
	if byMonth && !d.show {
		out = fraction(out, d.month, yy)
	}
	out = fraction(out, d.month, d.day)
	out = fraction(out, d.day, d.month)
	if len(out) > 0 || !d.showYear {
		return out
	}
	if d.show {
		out = d.mixed()
	}
	if byMonth {
		out = fraction(out, d.month, yy)
	}
	return out
}

// mixed are the whole numbers with a fraction that become the date: 1-3/8.
func (d stamp) mixed() []string {
	first, second, yy := d.month, d.day, d.year%100
	if d.dayFirst() {
		first, second = second, first
	}
	out := mixed(nil, first, second, yy)
	if !d.ordered() {
		out = mixed(out, second, first, yy)
	}
	return out
}

// fraction adds n/d if that is a fraction that inches are divided into.
func fraction(out []string, n, d int) []string {
	if !inches(n, d) {
		return out
	}
	return with(out, fmt.Sprintf("%d/%d", n, d))
}

func mixed(out []string, whole, n, d int) []string {
	if !inches(n, d) {
		return out
	}
	return with(out, fmt.Sprintf("%d %d/%d", whole, n, d))
}

// inches tells whether n/d is a fraction in its lowest terms of halves to 64ths.
func inches(n, d int) bool {
	return n%2 == 1 && n < d && slices.Contains([]int{2, 4, 8, 16, 32, 64}, d)
}

func with(out []string, s string) []string {
	if slices.Contains(out, s) {
		return out
	}
	return append(out, s)
}

// dayFirst tells whether the format puts the day before the month. The built-in
// mm-dd-yy is shown in the order of the reader's country, and d-mmm is the same in all.
func (d stamp) dayFirst() bool {
	return d.ordered() && strings.Index(d.format, "d") < strings.Index(d.format, "m")
}

// ordered tells whether the format shows in which order day and month were typed.
func (d stamp) ordered() bool {
	return d.format != "mm-dd-yy" && !strings.Contains(d.format, "mmm")
}

// years are the model years that become the date: a year that was given a date's format,
// and ranges such as 07-12 and 2007-12.
func (d stamp) years() []string {
	switch {
	case d.serial >= 1900 && d.serial <= 2100:
		return whole(d.serial)
	case d.showYear && !d.showMonth, d.showYear && d.show && d.month == 1 && d.day == 1:
		return []string{strconv.Itoa(d.year)}
	case !d.show && d.month == d.year%100:
		return []string{strconv.Itoa(d.year)}
	case !d.show && d.year < 2000:
		return []string{fmt.Sprintf("%d-%d", d.year, 2000+d.month)}
	case !d.show:
		return span(d.month, d.year%100)
	case !d.showYear:
		return span(d.month, d.day)
	}
	return append([]string{strconv.Itoa(d.year)}, span(d.month, d.day)...)
}

// span is a range between two years of this century.
func span(a, b int) []string {
	if a == b {
		return []string{strconv.Itoa(2000 + a)}
	}
	return []string{fmt.Sprintf("%d-%d", 2000+min(a, b), 2000+max(a, b))}
}

// joined are the names that become the date: two numbers, or a month's name and one.
func (d stamp) joined() []string {
	month := strings.ToUpper(monthNames[d.month-1][:3])
	second := d.day
	if !d.show && d.showYear {
		second = d.year % 100
	}
	out := with(nil, fmt.Sprintf("%d-%d", d.month, second))
	if second == d.day {
		out = with(out, fmt.Sprintf("%d-%d", d.day, d.month))
	}
	return with(out, fmt.Sprintf("%s-%d", month, second))
}

// decimal is the decimal that becomes the date where the point stands between day and
// month.
func (d stamp) decimal() []string { return []string{fmt.Sprintf("%d.%d", d.day, d.month)} }

// whole is a number that was given a date's format.
func whole(serial float64) []string {
	return []string{strconv.FormatFloat(serial, 'f', -1, 64)}
}

var monthNames = [...]string{"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"}

// monthOf gives the number of a month by its name or the first three or more letters
// of it, 0 for other words.
func monthOf(word string) int {
	for i, m := range monthNames {
		if len(word) >= 3 && len(word) <= len(m) && strings.EqualFold(m[:len(word)], word) {
			return i + 1
		}
	}
	return 0
}
