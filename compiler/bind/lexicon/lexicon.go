// Package lexicon knows the names that a catalogue declares, and reads what stands in cells by
// them: conditions on traits, platforms, years, what fits. What it gives says what the cell
// says, or what is wrong with it and what to write instead; whoever asks tells it, or does not.
//
// It is filled while declarations are bound, or all at once from a catalogue. Names are
// compared as people mean them (package word), texts are taken apart by package grammar, and
// what people write in place of a cell that reads is known to package mend.
package lexicon

import (
	"ferrule/compiler/bind/memo"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

// Lexicon is what is declared. It keeps what it has read, so it is not for several goroutines.
type Lexicon struct {
	Platforms Names[*model.Platform]
	Traits    Names[*model.Trait]
	Positions Names[*model.Position]
	Sizes     measure.Options // how sizes are written

	unknowable Unknowable
	values     []*Names[int]          // by the trait's index
	parts      map[string]*model.Part // by folded number, with those that stand in
	numbers    List                   // of parts, as declared

	kept kept

	near     *near               // nil until a number is unknown
	numerals map[string]string   // numbers of parts that read as numbers, by value; nil until asked for
	shapes   map[string][]string // current numbers by shape; nil until asked for
}

// kept is what has been read, by text.
type kept struct {
	years      memo.Texts[yearsCell]
	conditions []*memo.Texts[Condition]      // by the trait's index
	platforms  memo.Texts[[]*model.Platform] // single names
	advice     memo.Texts[advised]           // on Platform cells
	fits       memo.Texts[*model.Fits]       // cells of which there is nothing to say
}

// Unknowable says which names nothing can declare, since the sheet that would is not there. A
// cell that names one of them may be right, so that there is no advice on it.
type Unknowable struct{ Platforms, Parts bool }

// New knows no name yet.
func New(u Unknowable) *Lexicon {
	return &Lexicon{unknowable: u, parts: map[string]*model.Part{}}
}

// Of knows the names of a catalogue that has been bound.
func Of(cat *model.Catalogue) *Lexicon {
	x := New(Unknowable{})
	x.Sizes.Comma = cat.Settings.DecimalComma
	for _, p := range cat.Platforms {
		x.Platforms.Add(p.Name, p)
	}
	for _, t := range cat.Traits {
		x.Traits.Add(t.Name, t)
		for i, v := range t.Values {
			x.Values(t).Add(v.Name, i)
		}
	}
	for _, p := range cat.Positions {
		x.Positions.Add(p.Name, p)
	}
	for _, p := range cat.Parts {
		x.AddPart(p)
	}
	return x
}

// Values are the names of a trait's values, by their index.
func (x *Lexicon) Values(t *model.Trait) *Names[int] {
	for len(x.values) <= t.Index {
		x.values = append(x.values, &Names[int]{})
	}
	return x.values[t.Index]
}
