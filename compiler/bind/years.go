package bind

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"ferrule/compiler/bind/mend"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// A year in a cell, and the forms of a range of them. Hyphen and dashes are one.
var (
	oneYear   = regexp.MustCompile(`^\d{4}$`)
	yearRange = regexp.MustCompile(`^(?:from )?(\d{4}) ?(?:[-\x{2010}-\x{2015}\x{2212}]| to ) ?(\d{4})$`)
	yearsFrom = regexp.MustCompile(`^(?:(\d{4}) ?\+|from (\d{4}))$`)
	laterForm = regexp.MustCompile(`^(?:since )?(\d{4}) ?(?:-|and later|and up|on|onwards|up)?$`)
	yearsTo   = regexp.MustCompile(`^to (\d{4})$`)
)

// parseYears reads a Years cell. Nil years stand for any. The reason is a sentence
// where the cell cannot be read.
func parseYears(text string) (years *model.Years, why string) {
	if years, why = readYears(text); why == "" {
		return years, ""
	}
	reads := func(cell string) bool { _, why := readYears(cell); return why == "" }
	if a, ok := mend.Years(text, reads); ok {
		return nil, a.Of(strings.TrimSpace(text))
	}
	return nil, why
}

// readYears reads a Years cell as it stands.
func readYears(text string) (years *model.Years, why string) {
	folded := word.Fold(text)
	if folded == "" || folded == "any" {
		return nil, ""
	}
	if folded == "n/a" {
		return nil, "every vehicle has a model year, so Years takes no n/a; write any where the year makes no difference"
	}
	years = &model.Years{}
	var pieces []string
	pieces, years.Not = list(text, func(string) bool { return false })
	for _, piece := range pieces {
		span, why := yearSpan(piece)
		if why != "" {
			return nil, why
		}
		years.Spans = append(years.Spans, span)
	}
	if len(years.Spans) == 0 {
		return nil, fmt.Sprintf("%q names no year; write years such as 2011, 2007-2012, 2007+ or to 2006", text)
	}
	return years, ""
}

func yearSpan(said string) (model.Span, string) {
	piece := word.Fold(said)
	if oneYear.MatchString(piece) {
		y := year(piece)
		return model.Span{From: y, To: y}, ""
	}
	if m := yearRange.FindStringSubmatch(piece); m != nil {
		s := model.Span{From: year(m[1]), To: year(m[2])}
		if s.To < s.From {
			return s, fmt.Sprintf("the years %q run backwards; write %d-%d", said, s.To, s.From)
		}
		return s, ""
	}
	if m := yearsFrom.FindStringSubmatch(piece); m != nil {
		return model.Span{From: year(m[1] + m[2]), To: model.LastYear}, ""
	}
	if m := yearsTo.FindStringSubmatch(piece); m != nil {
		return model.Span{From: model.FirstYear, To: year(m[1])}, ""
	}
	return model.Span{}, fmt.Sprintf("%q is not a year or a range of years; write 2011, 2007-2012, 2007+ or to 2006", said)
}

func year(digits string) int {
	y, err := strconv.Atoi(digits)
	if err != nil {
		panic("bind: year: not four digits")
	}
	return y
}

// closed tells why years cannot be those of a platform: they need a first and a last.
func closed(years *model.Years) string {
	if years == nil || years.Not {
		return "a platform needs its first and last model year; write for example 1998-2016"
	}
	for _, s := range years.Spans {
		switch {
		case s.From == model.FirstYear:
			return fmt.Sprintf("a platform needs a first model year; write for example %d-%d", s.To-10, s.To)
		case s.To == model.LastYear:
			return fmt.Sprintf("a platform needs a last model year (this year's, where it is still made); write for example %d-%d", s.From, s.From+10)
		case s.To-s.From >= maxYears:
			return fmt.Sprintf("%d to %d are more than %d model years", s.From, s.To, maxYears)
		}
	}
	return ""
}
