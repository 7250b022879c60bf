package bind

import (
	"fmt"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/bind/mend"
	"ferrule/compiler/model"
)

// parseYears reads a Years cell. Nil years stand for any. The reason is a sentence
// where the cell cannot be read.
func parseYears(text string) (years *model.Years, why string) {
	said, why := grammar.ReadYears(text)
	if why == "" {
		return yearsOf(said), ""
	}
	reads := func(cell string) bool { _, why := grammar.ReadYears(cell); return why == "" }
	if a, ok := mend.Years(text, reads); ok {
		return nil, a.Of(strings.TrimSpace(text))
	}
	return nil, why
}

// yearsOf gives the years that a cell says.
func yearsOf(said grammar.Years) *model.Years {
	if said.Any {
		return nil
	}
	years := &model.Years{Not: said.Not}
	for _, s := range said.Spans {
		span := model.Span(s)
		if s.From == grammar.Open {
			span.From = model.FirstYear
		}
		if s.To == grammar.Open {
			span.To = model.LastYear
		}
		years.Spans = append(years.Spans, span)
	}
	return years
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
