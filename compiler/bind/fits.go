package bind

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// maxQuantity bounds what a cell may order: more is a slip of the hand.
const maxQuantity = 9999

// The forms that a fitment cell can take beside a list of parts. A space that does not
// break (\p{Z}) is white space as well.
var (
	keyword  = regexp.MustCompile(`(?is)^(none|planned|tbd|ask)(?:$|[\s\p{Z}]*[:;,.(][\s\p{Z}]*|[\s\p{Z}]+[–—-][\s\p{Z}]+|[\s\p{Z}]+)(.*)$`)
	withWord = regexp.MustCompile(`(?is)^with[\s\p{Z}]+(.+)$`)
	quantity = regexp.MustCompile(`(?s)^(\d+)[\s\p{Z}]*[xX×][\s\p{Z}]+(.+)$`)
	orWord   = regexp.MustCompile(`(?i)[\s\p{Z}]+or[\s\p{Z}]+`)
	loneDash = regexp.MustCompile(`^[-\x{2010}-\x{2015}\x{2212}]+$`)
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
	if p, ok := b.part(text); ok {
		return &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{alone(p)}}
	}
	if !b.beginsWithPart(text) {
		if m := keyword.FindStringSubmatch(text); m != nil {
			return &model.Fits{Outcome: outcome(m[1]), Text: reason(m[2])}
		}
		if m := withWord.FindStringSubmatch(text); m != nil {
			return b.with(m[1], at)
		}
	}
	if why := unreadable(text); why != "" {
		if f, told := b.slip(text, at); told {
			return f
		}
		b.fail(finding.FitmentMalformed, at, "%s", why)
		return nil
	}
	if !b.trying {
		if f, ok := b.silently(text); f != nil && !ok {
			if f, told := b.slip(text, at); told {
				return f
			}
		}
	}
	return b.alternatives(text, at)
}

// alternatives reads parts that are joined by or and +.
func (b *binder) alternatives(text string, at cell.Place) *model.Fits {
	f := &model.Fits{Outcome: model.Fitted}
	for _, piece := range strings.Split(orWord.ReplaceAllString(" "+text+" ", "\n"), "\n") {
		alternative, ok := b.alternative(strings.TrimSpace(piece), text, at)
		if !ok {
			return nil
		}
		f.Alternatives = append(f.Alternatives, alternative)
	}
	return f
}

// beginsWithPart tells whether the first piece of a cell is a declared number: then it
// is that number, whatever word it begins with.
func (b *binder) beginsWithPart(text string) bool {
	first := strings.TrimSpace(orWord.Split(text, 2)[0])
	if _, ok := b.part(first); ok {
		return true
	}
	first = strings.TrimSpace(strings.SplitN(first, "+", 2)[0])
	if m := quantity.FindStringSubmatch(first); m != nil {
		first = m[2]
	}
	_, ok := b.part(first)
	return ok
}

func outcome(word string) model.Outcome {
	switch strings.ToLower(word) {
	case "none":
		return model.None
	case "ask":
		return model.Ask
	}
	return model.Planned
}

// reason cuts a bracket that was left open by its keyword: `none (no tag axle)`.
func reason(s string) string {
	s = strings.TrimSpace(s)
	if strings.HasSuffix(s, ")") && strings.Count(s, ")") > strings.Count(s, "(") {
		s = strings.TrimSpace(strings.TrimSuffix(s, ")"))
	}
	return s
}

func (b *binder) with(name string, at cell.Place) *model.Fits {
	p, ok := b.positionNames.find(name)
	if !ok {
		b.unknown(finding.ReferenceUnknown, schema.Positions, "position", strings.Join(strings.Fields(name), " "), b.positionNames.list, at)
		return nil
	}
	return &model.Fits{Outcome: model.Fitted, With: p}
}

// unreadable says why a cell is no list of parts.
func unreadable(text string) string {
	switch {
	case loneDash.MatchString(text):
		return fmt.Sprintf("%q says nothing; write none and the reason where nothing belongs, or leave the cell blank where nothing is known", text)
	case word.Fold(text) == "n/a" || word.Fold(text) == "na":
		return fmt.Sprintf("%q is for conditions; write none and the reason where nothing belongs here", text)
	case strings.ContainsAny(text, "\n\r"):
		return fmt.Sprintf("a line break stands between items; write %s for a choice, or %s for parts fitted together",
			quote(rejoin(text, " or ")), quote(rejoin(text, " + ")))
	case strings.ContainsAny(text, ",;"):
		return fmt.Sprintf("%q has a comma or semicolon between items; write %s for a choice, or %s for parts fitted together",
			text, quote(rejoin(text, " or ")), quote(rejoin(text, " + ")))
	}
	return ""
}

func quote(s string) string { return strconv.Quote(s) }

func rejoin(text, by string) string {
	var pieces []string
	for _, p := range strings.FieldsFunc(text, grammar.Separator) {
		if p = strings.Join(strings.Fields(p), " "); p != "" {
			pieces = append(pieces, p)
		}
	}
	return strings.Join(pieces, by)
}

// alternative reads items joined by +. The whole of it may be one declared number,
// whatever it holds.
func (b *binder) alternative(text, whole string, at cell.Place) (model.Alternative, bool) {
	if text == "" || strings.EqualFold(text, "or") || len(text) > 3 && strings.EqualFold(text[:3], "or ") {
		b.fail(finding.FitmentMalformed, at, "%q has nothing on one side of or; write a part on each side", whole)
		return nil, false
	}
	if p, ok := b.part(text); ok {
		return alone(p), true
	}
	pieces := strings.Split(text, "+")
	var out model.Alternative
	for _, piece := range pieces {
		item, why := b.item(strings.Join(strings.Fields(piece), " "), at)
		if why != "" {
			b.fail(finding.FitmentMalformed, at, "%q: %s", whole, why)
			return nil, false
		}
		if item.Quantity == 0 && len(pieces) > 1 {
			item.Quantity = 1
		}
		out = append(out, item)
	}
	return out, true
}

// alone is a number by itself: a part as many times as the position takes, a kit once.
func alone(p *model.Part) model.Alternative {
	if p.Kit() {
		return model.Alternative{{Part: p, Quantity: 1}}
	}
	return model.Alternative{{Part: p}}
}

// item reads one part with its quantity. Quantity 0 is the position's.
func (b *binder) item(text string, at cell.Place) (model.Item, string) {
	switch {
	case text == "":
		return model.Item{}, "nothing stands on one side of +; write a part on each side"
	case loneDash.MatchString(text):
		return model.Item{}, "a dash is no part"
	}
	if p, ok := b.part(text); ok {
		return model.Item{Part: p}, ""
	}
	n := 0
	if m := quantity.FindStringSubmatch(text); m != nil {
		var err error
		if n, err = strconv.Atoi(m[1]); err != nil || n < 1 || n > maxQuantity {
			return model.Item{}, fmt.Sprintf("a quantity is a whole number from 1 to %d, not %s", maxQuantity, m[1])
		}
		text = m[2]
		if p, ok := b.part(text); ok {
			return model.Item{Part: p, Quantity: n}, ""
		}
	}
	if why := misplaced(text); why != "" {
		return model.Item{}, why
	}
	return model.Item{Part: b.standIn(text, at, b.unknownPart), Quantity: n}, ""
}

// misplaced says why a word cannot stand among parts.
func misplaced(text string) string {
	if m := keyword.FindStringSubmatch(text); m != nil {
		return fmt.Sprintf("%s stands alone in its cell and cannot be one of several", strings.ToLower(m[1]))
	}
	if withWord.MatchString(text) {
		return "with and a position stand alone in their cell and cannot be one of several"
	}
	return ""
}

// part finds a declared part or kit.
func (b *binder) part(number string) (*model.Part, bool) {
	p, ok := b.parts[word.Fold(number)]
	return p, ok && p.Known
}

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
	if b.trying {
		return &model.Part{Number: number}
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
