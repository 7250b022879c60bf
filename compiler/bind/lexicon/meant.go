package lexicon

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/bind/mend"
	"ferrule/compiler/model"
)

// OneNumber says what to write where the text under a column that takes one number is none,
// and it shows what was meant; "" where it does not.
func (x *Lexicon) OneNumber(text string) string {
	if x.asTyped(text) != "" {
		return "" // that is said of it
	}
	pieces := grammar.Severed(text)
	unknown := func(s string) bool { return !x.IsPart(strings.TrimSpace(s)) }
	if len(pieces) > 1 && !slices.ContainsFunc(pieces, unknown) {
		return "one part is meant here; write a row for each"
	}
	a, ok := x.partMender().Advise(text)
	if !ok || len(a.Write) == 0 {
		return ""
	}
	fits, read := x.silently(a.Write[0])
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

// partMender knows what mend has to know of the parts.
func (x *Lexicon) partMender() mend.Fitment {
	return mend.Fitment{
		Find: func(number string) (string, bool) {
			p, ok := x.Part(number)
			if !ok {
				return "", false
			}
			return p.Number, true
		},
		Alike: x.alikePart,
		Near:  x.nearPart,
		Reads: func(text string) bool { _, ok := x.silently(text); return ok },
		Most:  grammar.MaxQuantity,
	}
}

// slip says what to write in place of a fitment cell that does not read as it stands, once
// for the whole cell; why is what is wrong with it whatever is declared, or "". A cell that
// shows that something is meant still decides, so that one slip is not a gap as well.
func (x *Lexicon) slip(text, why string) (Cell, bool) {
	if x.unknowable.Parts || x.asTyped(text) != "" {
		return Cell{}, false
	}
	a, ok := x.partMender().Advise(text)
	if !ok {
		return Cell{}, false
	}
	out := Cell{Fault: slipped(a, text, why), Meant: x.meant(a)}
	if why == "" {
		p := x.StandIn(text)
		p.Misread = true
		out.Fits = &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{Alone(p)}}
	}
	return out, true
}

// slipped puts advice on a cell into words.
func slipped(a mend.Advice, text, why string) Fault {
	switch {
	case why != "" && len(a.Write) == 0:
		return Fault{Flaw: Malformed, Says: why}
	case why == "" && a.Name:
		return Fault{Flaw: NoPart, Says: fmt.Sprintf("no part is called %q; %s", text, a.Says)}
	case why == "" && len(a.Aside) > 0:
		return malformed("%q: %s", text, a.Says)
	}
	return Fault{Flaw: Malformed, Says: a.Of(text)}
}

// meant gives the parts that a cell would offer once it is written as advised.
func (x *Lexicon) meant(a mend.Advice) (out []*model.Part) {
	for _, w := range a.Write {
		if f, ok := x.silently(w); ok {
			f.Parts(func(p *model.Part) { out = append(out, p) })
		}
	}
	return out
}
