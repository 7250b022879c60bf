package lexicon

import (
	"strings"

	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// AddPart declares a part or a kit by its number.
func (x *Lexicon) AddPart(p *model.Part) {
	x.parts[word.Fold(p.Number)] = p
	x.numbers = append(x.numbers, p.Number)
}

// Alone is a number by itself: a part as many times as the position takes, a kit once.
func Alone(p *model.Part) model.Alternative {
	if p.Kit() {
		return model.Alternative{{Part: p, Quantity: 1}}
	}
	return model.Alternative{{Part: p}}
}

// Part finds a declared part or kit.
func (x *Lexicon) Part(number string) (*model.Part, bool) {
	p, ok := x.parts[word.Fold(number)]
	return p, ok && p.Known
}

// IsPart tells whether a part or a kit has the number.
func (x *Lexicon) IsPart(number string) bool { _, ok := x.Part(number); return ok }

// StandIn finds a part, or what stands in for one that nothing declares: one number is one
// part wherever it stands.
func (x *Lexicon) StandIn(number string) *model.Part {
	number = oneLine(number)
	key := word.Fold(number)
	p, ok := x.parts[key]
	if !ok {
		p = &model.Part{Number: number}
		x.parts[key] = p
	}
	return p
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
