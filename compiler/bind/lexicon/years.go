package lexicon

import (
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/bind/mend"
	"ferrule/compiler/model"
)

// yearsCell is what a Years cell says.
type yearsCell struct {
	years *model.Years
	why   string // not "": it cannot be read
}

// Years is ReadYears, each text once.
func (x *Lexicon) Years(text string) (years *model.Years, why string) {
	c := x.kept.years.Once(text, func() (c yearsCell) {
		c.years, c.why = ReadYears(text)
		return c
	})
	return c.years, c.why
}

// ReadYears reads a Years cell. Nil years stand for any. The reason is a sentence
// where the cell cannot be read.
func ReadYears(text string) (years *model.Years, why string) {
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
