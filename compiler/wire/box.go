package wire

import (
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// Box is a product of years and trait values. No years means all, and a trait that is
// not named is any. What follows from a box is named too.
type Box struct {
	Years  [][2]int `json:"years"`  // closed ranges of model years; none: all
	Traits Object   `json:"traits"` // by trait, the values allowed, of serial numbers and dates closed ranges of them; null: does not apply
}

// BoxOf gives a box in its tight form.
func BoxOf(b model.Box) Box { return Box{spans(b.Years), TraitSets(b.Tight().Traits)} }

// Boxes gives several boxes in their order; never nil.
func Boxes(bs []model.Box) []Box {
	out := make([]Box, len(bs))
	for i, b := range bs {
		out[i] = BoxOf(b)
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

// YearSpans gives ascending years as closed ranges of consecutive ones.
func YearSpans(years []int) [][2]int {
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

// TraitSets gives the restricted traits with the values allowed, as declared; null
// stands for 'does not apply' and comes last.
func TraitSets(sets []model.TraitSet) Object {
	out := Object{}
	for _, t := range sets {
		out = append(out, Field{t.Trait.Name, valuesOf(t)})
	}
	return out
}

func valuesOf(t model.TraitSet) []any {
	out := []any{}
	absent := t.Values.Has(t.Trait.Absent())
	if t.Trait.Kind.OnLine() {
		out = rangesOf(t)
	} else {
		names, _ := t.Names()
		for _, n := range names {
			out = append(out, n)
		}
	}
	if absent {
		out = append(out, nil)
	}
	return out
}

// rangesOf is Ranges where an end may be open, as in a row of a sheet: then it is nil.
func rangesOf(t model.TraitSet) []any {
	out := []any{}
	ranges, _ := t.Ranges()
	k := t.Trait.Kind.Line()
	first, last := k.Ends()
	for _, r := range ranges {
		ends := [2]any{k.Point(r.First()), k.Point(r.End())}
		if t.Line != nil && r.From == first {
			ends[0] = nil
		}
		if t.Line != nil && r.To == last {
			ends[1] = nil
		}
		if ends[0] == nil && ends[1] == nil {
			ends[0] = k.Point(r.First()) // the letters
		}
		out = append(out, ends)
	}
	return out
}

// Ranges gives the closed ranges of a trait on a line that a set holds: serial numbers without
// leading zeros, days as ISO 8601 writes them.
func Ranges(t model.TraitSet) [][2]string {
	out := [][2]string{}
	ranges, _ := t.Ranges()
	k := t.Trait.Kind.Line()
	for _, r := range ranges {
		out = append(out, [2]string{k.Point(r.First()), k.Point(r.End())})
	}
	return out
}

// Example is one configuration.
type Example struct {
	Year   int    `json:"year"`   // model year
	Traits Object `json:"traits"` // by trait, its value, of several alike the first; null: does not apply
}

// ExampleOf gives nil for no example.
func ExampleOf(e *model.Example) *Example {
	if e == nil {
		return nil
	}
	out := &Example{Year: e.Year, Traits: Object{}}
	for _, t := range e.Traits {
		var value any
		if t.Value != t.Trait.Absent() {
			value = t.Name()
		}
		out.Traits = append(out.Traits, Field{t.Trait.Name, value})
	}
	return out
}

// Place is a cell of a workbook, a sheet where Cell is "", a file where Sheet is "".
type Place struct {
	File  string `json:"file"`            // relative to the catalogue
	Sheet string `json:"sheet,omitempty"` // "" for the workbook as a whole
	Cell  string `json:"cell,omitempty"`  // in A1 notation; "" for the sheet as a whole
	Note  string `json:"note,omitempty"`  // what is wrong with this cell of several
}

// PlaceOf gives nil for a place in no file.
func PlaceOf(p cell.Place) *Place {
	if p.Sheet == nil {
		return nil
	}
	return &Place{File: p.Sheet.File, Sheet: p.Sheet.Name, Cell: p.Pos.String()}
}

// Places gives the cells of some things, without those in no file.
func Places[T any](in []T, at func(T) cell.Place) []Place {
	var out []Place
	for _, v := range in {
		if p := PlaceOf(at(v)); p != nil {
			out = append(out, *p)
		}
	}
	return out
}
