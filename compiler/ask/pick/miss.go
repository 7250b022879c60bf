package pick

import (
	"fmt"
	"strings"

	"ferrule/compiler/bind"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// trial is where a part stands that is only tried.
var trial = cell.Place{Sheet: &cell.Sheet{File: "(tried)"}}

// misses says which columns of a row keep it from matching vehicles of a region.
func (e *explainer) misses(region space.Region, w *model.When) []Miss {
	if w.SetAside {
		return nil
	}
	if !w.Concerns(e.Model) {
		names := make([]string, len(w.Platforms))
		for i, p := range w.Platforms {
			names[i] = p.Name
		}
		return []Miss{{"Platform", word.List(names, "or"), e.Model.Name}}
	}
	box := e.Bounds(w)
	var alone, all []Miss
	for t, set := range box {
		if set == nil {
			continue
		}
		m := Miss{Name(traitOf(e.Platform, t)), e.asks(w, t), e.have(region, t)}
		all = append(all, m)
		if !e.Meets(region, make(space.Box, t+1).With(t, set)) {
			alone = append(alone, m)
		}
	}
	if alone == nil {
		return all
	}
	return alone
}

// asks gives a row's condition on a trait of the space in the words of cells.
func (e *explainer) asks(w *model.When, t int) string {
	if t == 0 {
		return yearWords(w.Years)
	}
	for _, c := range w.Traits {
		if c.Trait.Index == t-1 && c.IsEmpty() {
			return "no value" // it excludes all of them
		}
		if c.Trait.Index == t-1 {
			return strings.Join(e.desk.words.Cells(c), " or ")
		}
	}
	panic("pick: a box restricts what its row does not name")
}

// have gives the values of a trait of the space that occur in a region.
func (e *explainer) have(region space.Region, t int) string {
	set := e.Values(region, t)
	if t == 0 {
		return bind.YearCell(e.Model.Spans(set))
	}
	names, absent := model.TraitSet{Trait: e.Cat.Traits[t-1], Values: set}.Names()
	if absent {
		names = append(names, "n/a")
	}
	return word.List(names, "or")
}

// yearWords says a condition on the year as cells do.
func yearWords(y *model.Years) string {
	words := make([]string, len(y.Spans))
	for i, s := range y.Spans {
		switch {
		case s.From == model.FirstYear:
			words[i] = fmt.Sprintf("to %d", s.To)
		case s.To == model.LastYear:
			words[i] = fmt.Sprintf("%d+", s.From)
		default:
			words[i] = bind.YearCell([]model.Span{s})
		}
	}
	text := strings.Join(words, ", ")
	if y.Not {
		return "not " + text
	}
	return text
}
