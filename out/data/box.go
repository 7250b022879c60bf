package data

import (
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// box is a product of years and trait values. No years means all, and a trait that is
// not named is any. What follows from a box is named too.
type box struct {
	Years  [][2]int `json:"years"`
	Traits object   `json:"traits"`
}

func boxOf(b model.Box) box { return box{spans(b.Years), traitSets(b.Tight().Traits)} }

func boxes(bs []model.Box) []box {
	out := make([]box, len(bs))
	for i, b := range bs {
		out[i] = boxOf(b)
	}
	return out
}

func spans(in []model.Span) [][2]int {
	out := make([][2]int, len(in))
	for i, s := range in {
		out[i] = [2]int{s.From, s.To}
	}
	return out
}

// yearSpans gives ascending years as closed ranges of consecutive ones.
func yearSpans(years []int) [][2]int {
	out := [][2]int{}
	for _, y := range years {
		if n := len(out); n > 0 && out[n-1][1] == y-1 {
			out[n-1][1] = y
		} else {
			out = append(out, [2]int{y, y})
		}
	}
	return out
}

// traitSets gives the restricted traits with the values allowed, as declared; null
// stands for 'does not apply' and comes last.
func traitSets(sets []model.TraitSet) object {
	out := object{}
	for _, t := range sets {
		names, absent := t.Names()
		values := make([]any, 0, len(names)+1)
		for _, n := range names {
			values = append(values, n)
		}
		if absent {
			values = append(values, nil)
		}
		out = append(out, field{t.Trait.Name, values})
	}
	return out
}

// example is one configuration.
type example struct {
	Year   int    `json:"year"`
	Traits object `json:"traits"`
}

func exampleOf(e *model.Example) *example {
	if e == nil {
		return nil
	}
	out := &example{Year: e.Year, Traits: object{}}
	for _, t := range e.Traits {
		var value any
		if t.Value != t.Trait.Absent() {
			value = t.Trait.Values[t.Value].Name
		}
		out.Traits = append(out.Traits, field{t.Trait.Name, value})
	}
	return out
}

// place is a cell of a workbook, a sheet where Cell is "", a file where Sheet is "".
type place struct {
	File  string `json:"file"`
	Sheet string `json:"sheet,omitempty"`
	Cell  string `json:"cell,omitempty"`
	Note  string `json:"note,omitempty"`
}

// placeOf gives nil for a place in no file.
func placeOf(p cell.Place) *place {
	if p.Sheet == nil {
		return nil
	}
	return &place{File: p.Sheet.File, Sheet: p.Sheet.Name, Cell: p.Pos.String()}
}
