package bind

import (
	"fmt"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// maxYears is how many model years a platform may have: more is a slip of the hand.
const maxYears = 200

func (b *binder) platformYears(r row) []int {
	text := r.text("Years")
	if text == "" {
		return nil // the schema says that it is required
	}
	if from, ok := grammar.Onwards(text); ok {
		text = grammar.Span{From: from, To: grammar.Open}.String() // what is missing is said below
	}
	years, why := lexicon.ReadYears(text)
	if why == "" {
		why = closed(years)
	}
	if why != "" {
		b.fail(finding.ConditionMalformed, r.at("Years"), "%s", why)
		return nil
	}
	have := map[int]bool{}
	lo, hi := years.Spans[0].From, years.Spans[0].To
	for _, s := range years.Spans {
		lo, hi = min(lo, s.From), max(hi, s.To)
		for y := s.From; y <= s.To; y++ {
			have[y] = true
		}
	}
	var out []int
	for y := lo; y <= hi; y++ {
		if have[y] {
			out = append(out, y)
		}
	}
	return out
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
