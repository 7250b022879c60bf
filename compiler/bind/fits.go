package bind

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// fits reads a fitment cell, or one that is written like it. Nil means that it cannot
// be read, with a finding that says why.
func (b *binder) fits(text string, at cell.Place) *model.Fits {
	text = strings.TrimSpace(text)
	if f, ok := b.cells.find(text); ok {
		return f
	}
	f := b.readFits(text, at)
	if f != nil && sound(f) {
		b.cells.keep(text, f)
	}
	return f
}

// sound tells whether a cell was read without a word about it: then every cell with the
// same text says the same. An unknown part has to be told wherever it stands.
func sound(f *model.Fits) bool {
	for _, a := range f.Alternatives {
		if slices.ContainsFunc(a, func(i model.Item) bool { return !i.Part.Known }) {
			return false
		}
	}
	return true
}

func (b *binder) readFits(text string, at cell.Place) *model.Fits {
	said := grammar.ReadFits(text).Take(b.isPart)
	f, ok := b.supposed(said)
	if ok {
		return f
	}
	if f != nil || said.Fault != "" {
		if f, told := b.slip(text, said.Fault, at); told {
			return f
		}
	}
	if _, ok := b.positionNames.find(said.With); said.With != "" && !ok {
		b.unknown(finding.ReferenceUnknown, schema.Positions, "position", said.With, b.positionNames.list, at)
		return nil
	}
	f, why := b.offered(said, func(number string) *model.Part { return b.standIn(number, at, b.unknownPart) })
	if why != "" {
		b.fail(finding.FitmentMalformed, at, "%s", why)
	}
	return f
}

// offered looks up the names in a fitment cell; stand gives the part of a number that
// nothing declares. why is a sentence where the cell cannot be read.
func (b *binder) offered(said grammar.Fits, stand func(number string) *model.Part) (f *model.Fits, why string) {
	switch {
	case said.Fault != "":
		return nil, said.Fault
	case said.Word != "":
		return &model.Fits{Outcome: outcome(said.Word), Text: said.Reason}, ""
	case said.With != "":
		p, ok := b.positionNames.find(said.With)
		if !ok {
			return nil, fmt.Sprintf("no position is called %q", said.With)
		}
		return &model.Fits{Outcome: model.Fitted, With: p}, ""
	}
	f = &model.Fits{Outcome: model.Fitted}
	for _, c := range said.Choices {
		a, why := b.alternative(c.Take(b.isPart), stand)
		if why != "" {
			return nil, why
		}
		f.Alternatives = append(f.Alternatives, a)
	}
	return f, ""
}

// alternative looks up what is fitted together: of a number alone as many as the position
// takes, of a kit and of each of several one.
func (b *binder) alternative(said grammar.Choice, stand func(number string) *model.Part) (model.Alternative, string) {
	var out model.Alternative
	for _, way := range said.Items {
		item := way.Take(b.isPart)
		if item.Fault != "" {
			return nil, item.Fault
		}
		p, ok := b.part(item.Number)
		if !ok {
			p = stand(item.Number)
		}
		if item.Quantity == 0 && (len(said.Items) > 1 || p.Kit()) {
			item.Quantity = 1
		}
		out = append(out, model.Item{Part: p, Quantity: item.Quantity})
	}
	return out, said.Fault
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

// alone is a number by itself: a part as many times as the position takes, a kit once.
func alone(p *model.Part) model.Alternative {
	if p.Kit() {
		return model.Alternative{{Part: p, Quantity: 1}}
	}
	return model.Alternative{{Part: p}}
}

// part finds a declared part or kit.
func (b *binder) part(number string) (*model.Part, bool) {
	p, ok := b.parts[word.Fold(number)]
	return p, ok && p.Known
}

func (b *binder) isPart(number string) bool { _, ok := b.part(number); return ok }

// partOr finds the part of a column that takes one number, or stands in for one that
// nothing declares, with a finding.
func (b *binder) partOr(number string, at cell.Place) *model.Part {
	return b.standIn(number, at, func(number string, at cell.Place) {
		if write := b.oneNumber(number); write != "" && b.asTyped(number) == "" {
			b.fail(finding.PartUnknown, at, "no part is called %q; %s", number, write)
			return
		}
		b.unknownPart(number, at)
	})
}

// standIn finds a part, or stands in for one that nothing declares and tells it. One
// unknown number is one part wherever it stands.
func (b *binder) standIn(number string, at cell.Place, tell func(string, cell.Place)) *model.Part {
	number = strings.Join(strings.Fields(number), " ")
	key := word.Fold(number)
	p, ok := b.parts[key]
	if ok && p.Known {
		return p
	}
	if !ok {
		p = &model.Part{Number: number}
		b.parts[key] = p
	}
	tell(number, at)
	return p
}

func (b *binder) unknownPart(number string, at cell.Place) {
	if b.quiet || b.owed(finding.PartUnknown, schema.Parts, number) {
		return
	}
	if typed := b.asTyped(number); typed != "" {
		why := "makes it the number " + number
		if strings.TrimLeft(typed, "0") == number {
			why = "takes leading zeros off a number"
		}
		b.fail(finding.CellNumberMangled, at, "no part is called %q; %s is, and a spreadsheet program %s: set the cell's format to text and type %s", number, typed, why, typed)
		return
	}
	if b.nameless(schema.Parts) {
		b.absent[schema.Parts]++
		return
	}
	if b.lay(number) {
		return
	}
	b.fail(finding.PartUnknown, at, "%s", b.noPart(number))
}

// noPart says that no part has a number, and which one may be meant.
func (b *binder) noPart(number string) string {
	if len(b.partList) == 0 {
		return fmt.Sprintf("part %q is not declared, and no part is", number)
	}
	says := fmt.Sprintf("no part is called %q", number)
	if d := b.likeParts().looksLike(number); d != "" {
		return says + d
	}
	if n := b.nearPart(number); n != "" {
		if p, ok := b.part(n); ok {
			b.mean(p)
		}
		return says + "; did you mean " + n + "?"
	}
	return says
}
