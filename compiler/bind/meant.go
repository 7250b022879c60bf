package bind

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/bind/mend"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// oneNumber says what to write where the text under a column that takes one number is none,
// and it shows what was meant; "" where it does not.
func (b *binder) oneNumber(text string) string {
	pieces := grammar.Severed(text)
	known := func(s string) bool { _, ok := b.part(strings.TrimSpace(s)); return ok }
	if len(pieces) > 1 && !slices.ContainsFunc(pieces, func(p string) bool { return !known(p) }) {
		return "one part is meant here; write a row for each"
	}
	a, ok := b.mender().Advise(text)
	if !ok || len(a.Write) == 0 {
		return ""
	}
	fits, read := b.silently(a.Write[0])
	if !read || fits.Outcome != model.Fitted || len(fits.Alternatives) == 0 {
		return "the column takes the number of one part"
	}
	if len(fits.Alternatives) > 1 || len(fits.Alternatives[0]) > 1 {
		return "one part is meant here; write a row for each"
	}
	item := fits.Alternatives[0][0]
	out := "the column takes the number of one part: write " + item.Part.Number
	if item.Quantity > 1 {
		out += fmt.Sprintf("; %d is a quantity, which has no place here but under Quantity in Kits", item.Quantity)
	}
	if len(a.Aside) > 0 {
		out += fmt.Sprintf("; %s is a remark and belongs elsewhere", strings.Join(quotes(a.Aside), " and "))
	}
	return out
}

func quotes(texts []string) []string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = strconv.Quote(t)
	}
	return out
}

// mender knows what mend has to know of the parts.
func (b *binder) mender() mend.Fitment {
	return mend.Fitment{
		Find: func(number string) (string, bool) {
			p, ok := b.part(number)
			if !ok {
				return "", false
			}
			return p.Number, true
		},
		Alike: b.alikePart,
		Near:  b.nearPart,
		Reads: func(text string) bool { _, ok := b.silently(text); return ok },
		Most:  grammar.MaxQuantity,
	}
}

// silently reads a fitment cell without a word; false where there would be one.
func (b *binder) silently(text string) (*model.Fits, bool) {
	return b.supposed(grammar.ReadFits(text).Take(b.isPart))
}

// supposed gives what a fitment cell would say if all numbers in it were declared; false where
// one is not. Nil where it could not be read.
func (b *binder) supposed(said grammar.Fits) (*model.Fits, bool) {
	f, _ := b.offered(said, func(number string) *model.Part { return &model.Part{Number: number} })
	return f, f != nil && sound(f)
}

// slip tells what to write in place of a fitment cell that does not read as it stands, once
// for the whole cell; why is what is wrong with it whatever is declared, or "". It gives what
// the cell says from then on: a cell that shows that something is meant still decides, so
// that one slip is not a gap as well.
func (b *binder) slip(text, why string, at cell.Place) (*model.Fits, bool) {
	if b.nameless(schema.Parts) || b.asTyped(text) != "" {
		return nil, false
	}
	a, ok := b.mender().Advise(text)
	if !ok {
		return nil, false
	}
	if why != "" {
		if len(a.Write) > 0 {
			why = a.Of(text)
		}
		b.fail(finding.FitmentMalformed, at, "%s", why)
		b.meanIn(a)
		return nil, true
	}
	if a.Name {
		b.fail(finding.PartUnknown, at, "no part is called %q; %s", text, a.Says)
	} else if len(a.Aside) > 0 {
		b.fail(finding.FitmentMalformed, at, "%q: %s", text, a.Says)
	} else {
		b.fail(finding.FitmentMalformed, at, "%s", a.Of(text))
	}
	b.meanIn(a)
	p := b.standIn(text, at, func(string, cell.Place) {})
	p.Misread = true
	return &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{alone(p)}}, true
}

// meanIn remembers the parts that a cell would offer once it is written as advised.
func (b *binder) meanIn(a mend.Advice) {
	for _, w := range a.Write {
		if f, ok := b.silently(w); ok && f != nil {
			f.Parts(b.mean)
		}
	}
}

// mean remembers a part that the fitment cell at hand probably means.
func (b *binder) mean(p *model.Part) { b.meant = append(b.meant, p) }

// meantFits is what the fitment cell at hand probably offers; nil where nothing shows it.
func (b *binder) meantFits() *model.Fits {
	if len(b.meant) == 0 {
		return nil
	}
	f := &model.Fits{Outcome: model.Fitted}
	for _, p := range b.meant {
		f.Alternatives = append(f.Alternatives, alone(p))
	}
	return f
}

// alikePart gives the one current part whose number differs from a text in nothing but
// spaces, hyphens, case, and letters that look like digits, or "".
func (b *binder) alikePart(text string) string {
	if b.shapes == nil {
		b.shapes = map[string][]string{}
		for _, n := range b.partList {
			if p, ok := b.part(n); ok && p.Status == model.Current {
				b.shapes[shape(n)] = append(b.shapes[shape(n)], n)
			}
		}
	}
	if same := b.shapes[shape(text)]; len(same) == 1 {
		return same[0]
	}
	return ""
}

// shape is a number as hands and eyes confuse it.
func shape(number string) string {
	return strings.NewReplacer(" ", "", "-", "", "_", "", ".", "", "o", "0", "i", "1", "l", "1").Replace(word.Fold(number))
}

// nearPart gives the one current part that may be meant by a number that no part has: it
// looks the same or differs in one letter. Where two are as near there is none.
func (b *binder) nearPart(number string) string {
	if n := b.alikePart(number); n != "" {
		return n
	}
	if len(b.shapes[shape(number)]) > 1 || len([]rune(word.Fold(number))) < 2 {
		return ""
	}
	if n := b.ending(number); n != "" {
		return n
	}
	near := b.likeParts().slips.Within(number)
	near = slices.DeleteFunc(near, func(n string) bool { p, ok := b.part(n); return !ok || p.Status != model.Current })
	if len(near) == 1 {
		return near[0]
	}
	return ""
}

// ending gives the one current part whose number ends in digits that stand alone, or "".
func (b *binder) ending(digits string) string {
	if len(digits) < 3 || strings.Trim(digits, "0123456789") != "" {
		return ""
	}
	var found []string
	for _, n := range b.partList {
		head, ends := strings.CutSuffix(n, digits)
		if !ends || head == "" || strings.ContainsAny(head[len(head)-1:], "0123456789") {
			continue
		}
		if p, ok := b.part(n); ok && p.Status == model.Current {
			found = append(found, n)
		}
	}
	if len(found) == 1 {
		return found[0]
	}
	return ""
}
