package report

import (
	"fmt"
	"io"
	"strings"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/offer"
	"ferrule/schema/word"
)

// Where writes for people what numbers stand for, and where the parts are offered: those asked
// about, then those that have taken their place.
func Where(w io.Writer, asked []offer.Asked, found []offer.Found, rel *model.Relations, o Options) error {
	p := newPage(w, o)
	said := false
	for i := range asked {
		said = p.stands(&asked[i]) || said
	}
	for i := range found {
		if said || i > 0 {
			p.line("")
		}
		p.whereabouts(&found[i], rel)
	}
	return p.err
}

// stands says what a number stands for; nothing, and false, where it is a part's own as it is written.
func (p *page) stands(a *offer.Asked) bool {
	if len(a.Parts) == 1 && len(a.References) == 0 && a.Parts[0].Number == a.Number {
		return false
	}
	for _, part := range a.Parts {
		p.wrap("", 2, fmt.Sprintf("%s is %s", a.Number, partWords(part)))
	}
	for _, r := range a.References {
		p.wrap("", 2, fmt.Sprintf("%s is another number of %s: %s", a.Number, partWords(r.Part), referenceWords(r)))
	}
	switch {
	case !a.None():
	case a.Nearest != "":
		p.wrap("", 2, fmt.Sprintf("%s is no number of this catalogue; did you mean %s?", a.Number, a.Nearest))
	default:
		p.wrap("", 2, a.Number+" is no number of this catalogue")
	}
	return true
}

// partWords names a part, with its status where it is not current.
func partWords(p *model.Part) string {
	words := p.Number
	if p.Name != "" {
		words += ", " + p.Name
	}
	if p.Status != model.Current {
		words += " (" + p.Status.String() + ")"
	}
	return words
}

// referenceWords says another number as it is written, with what kind of number it is, and whose.
func referenceWords(r *model.Reference) string {
	words := []string{r.Number}
	if r.Kind != "" {
		words = append(words, r.Kind)
	}
	if r.Source != "" {
		words = append(words, r.Source)
	}
	return strings.Join(words, ", ")
}

func (p *page) whereabouts(f *offer.Found, rel *model.Relations) {
	p.title(partWords(f.Part))
	for _, r := range rel.References[f.Part] {
		p.fact("number", referenceWords(r))
	}
	steps, _ := f.Part.Replaced()
	for _, old := range steps {
		p.fact("replaced", old.Number+" by "+old.ReplacedBy.String())
	}
	for _, old := range rel.Replaces[f.Part] {
		p.fact("replaces", partWords(old))
	}
	for _, k := range rel.Kits[f.Part] {
		p.fact("in kit", fmt.Sprintf("%s, %d in each", partWords(k.Part), k.Quantity))
	}
	for _, c := range f.Part.Contents {
		p.fact("holds", itemWords(c.Part, c.Quantity))
	}
	own := decide.Case{Alternatives: []model.Alternative{{{Part: f.Part}}}}
	for _, n := range notesOf(&own) {
		p.fact(levelOf(n), noteText(n))
	}
	p.places(f)
}

// fact writes one thing that is known of a part.
func (p *page) fact(label, words string) {
	p.wrap("  "+p.paint(dim, fmt.Sprintf("%-10s", label)), 12, words)
}

// places says where a part goes, and what is to be heeded there.
func (p *page) places(f *offer.Found) {
	var on *model.Platform
	for _, o := range f.Offers {
		if o.Platform != on {
			on = o.Platform
			p.line("  " + on.Name)
		}
		p.wrap("    ", 6, o.Position.Name+": "+offerWords(&o))
		if len(o.Where) == 1 && !o.Where[0].Restricts() {
			continue
		}
		for _, b := range o.Where {
			p.wrap("      "+p.paint(dim, "where")+" ", 12, b.String())
		}
	}
	if len(f.Offers)+len(f.Held)+len(f.Vague) == 0 {
		p.wrap("  ", 2, "no vehicle of this catalogue gets it; that does not say whether it would fit")
	}
	for _, at := range f.Held {
		p.fact("not said", fmt.Sprintf("%s, %s: a cell names it and is not to be relied on as it stands; ferrule check tells why", at.Platform.Name, at.Position.Name))
	}
	for _, at := range f.Vague {
		p.fact("not said", fmt.Sprintf("%s, %s: too irregular to be worked out for all vehicles; ferrule pick tells of one", at.Platform.Name, at.Position.Name))
	}
	for _, r := range f.Rules {
		p.fact(ruleLabel(r.Effect), ruleWords(&r))
	}
}

// offerWords says how many are taken, as which choice, and in which kit.
func offerWords(o *offer.Offer) string {
	words := fmt.Sprint(o.Count)
	if o.Count == 0 {
		words = "as many as the kit says"
	}
	switch {
	case o.Of > 1:
		words += fmt.Sprintf(", choice %d of %d", o.Choice+1, o.Of)
	default:
		words += ", the only choice"
	}
	if o.Kit != nil {
		words += ", in the kit " + partWords(o.Kit)
	}
	return words
}

// ruleLabel says what a compatibility row asks for.
func ruleLabel(e model.Effect) string {
	switch e {
	case model.Forbid:
		return "forbidden"
	case model.Require:
		return "needs"
	}
	return "care"
}

// ruleWords says a compatibility row as it holds on one platform.
func ruleWords(r *offer.Rule) string {
	about := "any " + r.Family
	if r.Part != nil {
		about = r.Part.Number
	}
	if r.With != nil {
		about += " with " + partWords(r.With)
	}
	var boxes []string
	for _, b := range r.Where {
		boxes = append(boxes, b.String())
	}
	words := r.Platform.Name + ": " + about
	if len(boxes) > 0 {
		words += ", where " + word.List(boxes, "or")
	}
	if r.Reason != "" {
		words += ": " + r.Reason
	}
	return words
}
