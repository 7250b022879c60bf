package grammar

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"ferrule/schema/word"
)

// Years is what a Years cell says.
type Years struct {
	Any   bool // blank, or any
	Not   bool // it says which years are left out
	Spans []Span
}

// Span is a stretch of years with both its ends.
type Span struct{ From, To int }

// Open is the end of a span that has none.
const Open = -1

// A year in a cell, and the forms of a range of them. Hyphen and dashes are one.
var (
	oneYear   = regexp.MustCompile(`^\d{4}$`)
	yearRange = regexp.MustCompile(`^(?:from )?(\d{4}) ?(?:[-\x{2010}-\x{2015}\x{2212}]| to ) ?(\d{4})$`)
	yearsFrom = regexp.MustCompile(`^(?:(\d{4}) ?\+|from (\d{4}))$`)
	yearsTo   = regexp.MustCompile(`^to (\d{4})$`)
	yearsOn   = regexp.MustCompile(`^since (\d{4})$|^(?:since )?(\d{4}) ?(?:-|and later|and up|on|onwards|up)$`)
)

// ReadYears reads a Years cell. why is a sentence where it cannot be read.
func ReadYears(text string) (years Years, why string) {
	switch word.Fold(text) {
	case "", "any":
		return Years{Any: true}, ""
	case "n/a":
		return Years{}, "every vehicle has a model year, so Years takes no n/a; write any where the year makes no difference"
	}
	list := ReadList(text).Plain()
	years.Not = list.Not
	for _, said := range list.Names(none) {
		span, why := readSpan(said)
		if why != "" {
			return Years{}, why
		}
		years.Spans = append(years.Spans, span)
	}
	if len(years.Spans) == 0 {
		return Years{}, fmt.Sprintf("%q names no year; write years such as 2011, 2007-2012, 2007+ or to 2006", text)
	}
	return years, ""
}

func readSpan(said string) (Span, string) {
	piece := word.Fold(said)
	if oneYear.MatchString(piece) {
		return Span{year(piece), year(piece)}, ""
	}
	if m := yearRange.FindStringSubmatch(piece); m != nil {
		s := Span{year(m[1]), year(m[2])}
		if s.To < s.From {
			return s, fmt.Sprintf("the years %q run backwards; write %d-%d", said, s.To, s.From)
		}
		return s, ""
	}
	if m := yearsFrom.FindStringSubmatch(piece); m != nil {
		return Span{year(m[1] + m[2]), Open}, ""
	}
	if m := yearsTo.FindStringSubmatch(piece); m != nil {
		return Span{Open, year(m[1])}, ""
	}
	return Span{}, fmt.Sprintf("%q is not a year or a range of years; write 2011, 2007-2012, 2007+ or to 2006", said)
}

// Onwards reads a year with all later ones as people write it who have not read how: `2004
// and later`, `2004-`.
func Onwards(text string) (from int, ok bool) {
	m := yearsOn.FindStringSubmatch(word.Fold(text))
	if m == nil {
		return 0, false
	}
	return year(m[1] + m[2]), true
}

func year(digits string) int {
	y, err := strconv.Atoi(digits)
	if err != nil {
		panic("grammar: year: not four digits")
	}
	return y
}

// String writes the years as a cell.
func (y Years) String() string {
	if y.Any {
		return "any"
	}
	said := make([]string, len(y.Spans))
	for i, s := range y.Spans {
		said[i] = s.String()
	}
	if y.Not {
		return "not " + strings.Join(said, ", ")
	}
	return strings.Join(said, ", ")
}

// String writes the years as a piece of a cell.
func (s Span) String() string {
	switch {
	case s.To == Open:
		return fmt.Sprintf("%04d+", s.From)
	case s.From == Open:
		return fmt.Sprintf("to %04d", s.To)
	case s.From == s.To:
		return fmt.Sprintf("%04d", s.From)
	}
	return fmt.Sprintf("%04d-%04d", s.From, s.To)
}
