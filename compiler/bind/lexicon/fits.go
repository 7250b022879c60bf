package lexicon

import (
	"fmt"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/model"
)

// Cell is what a fitment cell says, or one that is written like it.
type Cell struct {
	// Fits is nil where the cell cannot be read. What only names parts that nothing declares is
	// read: they stand in it, so that one slip is not a gap as well.
	Fits    *model.Fits
	Fault   Fault
	Unknown []string      // numbers that nothing declares, each to be told as Mangled or NoPart says
	Meant   []*model.Part // what the cell probably offers, where advice is given on the whole of it
}

// Sound tells whether there is nothing to say of the cell. Then every cell with the same text
// says the same.
func (c *Cell) Sound() bool {
	return c.Fits != nil && c.Fault.Flaw == None && len(c.Unknown) == 0
}

// Fits reads a fitment cell, or one that is written like it. One number that nothing declares
// is one part in all cells.
func (x *Lexicon) Fits(text string) Cell {
	text = strings.TrimSpace(text)
	if f, ok := x.kept.fits.Find(text); ok {
		return Cell{Fits: f}
	}
	c := x.readFits(text)
	if c.Sound() {
		x.kept.fits.Keep(text, c.Fits)
	}
	return c
}

func (x *Lexicon) readFits(text string) Cell {
	said := grammar.ReadFits(text).Take(x.IsPart)
	f, unknown, why := x.offered(said)
	switch {
	case f != nil && len(unknown) == 0:
		return Cell{Fits: f}
	case f != nil || said.Fault != "":
		if c, ok := x.slip(text, said.Fault); ok {
			return c
		}
	case said.With != "":
		return Cell{Fault: Fault{Flaw: Undeclared, Name: said.With}}
	}
	out := Cell{Fits: f, Unknown: unknown}
	x.standInFor(f, unknown)
	if why != "" {
		out.Fault = Fault{Flaw: Malformed, Says: why}
	}
	return out
}

// standInFor puts parts that stand in where a cell names what nothing declares.
func (x *Lexicon) standInFor(f *model.Fits, unknown []string) {
	for _, number := range unknown {
		x.StandIn(number)
	}
	if f == nil {
		return
	}
	for _, a := range f.Alternatives {
		for i := range a {
			if !a[i].Part.Known {
				a[i].Part = x.StandIn(a[i].Part.Number)
			}
		}
	}
}

// silently reads a fitment cell; false where there is something to say of it.
func (x *Lexicon) silently(text string) (*model.Fits, bool) {
	f, unknown, _ := x.offered(grammar.ReadFits(text).Take(x.IsPart))
	return f, f != nil && len(unknown) == 0
}

// offered looks up the names in a fitment cell, once. Numbers that nothing declares are parts
// of their own for now. why is a sentence where the cell cannot be read.
func (x *Lexicon) offered(said grammar.Fits) (f *model.Fits, unknown []string, why string) {
	switch {
	case said.Fault != "":
		return nil, nil, said.Fault
	case said.Word != "":
		return &model.Fits{Outcome: outcome(said.Word), Text: said.Reason}, nil, ""
	case said.With != "":
		p, ok := x.Positions.Find(said.With)
		if !ok {
			return nil, nil, fmt.Sprintf("no position is called %q", said.With)
		}
		return &model.Fits{Outcome: model.Fitted, With: p}, nil, ""
	}
	f = &model.Fits{Outcome: model.Fitted}
	for _, c := range said.Choices {
		a, more, why := x.alternative(c.Take(x.IsPart))
		unknown = append(unknown, more...)
		if why != "" {
			return nil, unknown, why
		}
		f.Alternatives = append(f.Alternatives, a)
	}
	return f, unknown, ""
}

// alternative looks up what is fitted together: of a number alone as many as the position
// takes, of a kit and of each of several one.
func (x *Lexicon) alternative(said grammar.Choice) (out model.Alternative, unknown []string, why string) {
	for _, way := range said.Items {
		item := way.Take(x.IsPart)
		if item.Fault != "" {
			return nil, unknown, item.Fault
		}
		p, ok := x.Part(item.Number)
		if !ok {
			p = &model.Part{Number: oneLine(item.Number)}
			unknown = append(unknown, p.Number)
		}
		if item.Quantity == 0 && (len(said.Items) > 1 || p.Kit()) {
			item.Quantity = 1
		}
		out = append(out, model.Item{Part: p, Quantity: item.Quantity})
	}
	return out, unknown, said.Fault
}

func outcome(word string) model.Outcome {
	switch word {
	case "none":
		return model.None
	case "ask":
		return model.Ask
	}
	return model.Planned
}
