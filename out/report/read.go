package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/wire"
	"ferrule/schema/word"
)

// Read writes a pick list as sentences to read aloud to somebody who stands at the vehicle: no
// cells, and nothing is counted but parts. What is certain comes first, then what is open, then
// what to ask next.
func Read(w io.Writer, l *pick.List, o Options) error {
	r := &reader{newPage(w, o), map[string]bool{}}
	words := l.Query.Platform.Name
	if box := l.Query.Box().String(); box != "all" {
		words += ", " + box
	}
	r.say("This is about %s.", words)
	if l.Configurations.Sign() == 0 {
		r.near(l)
		return r.err
	}
	if so := certain(l.So); so.Restricts() {
		r.say("Then it must be %s. Check that first; if it is not so, stop.", so)
	}
	r.line("")
	said := false
	for i := range l.Positions {
		if known(&l.Positions[i]) {
			said = true
			r.place(&l.Positions[i])
		}
	}
	if !said {
		r.say("Nothing can be said for certain yet.")
	}
	r.open(l)
	return r.err
}

// known tells whether all that is read of a position holds whatever was not told.
func known(p *pick.Position) bool {
	_, first := p.First()
	return first || p.Certain() != nil
}

// reader remembers which texts were read already: nobody listens to one twice.
type reader struct {
	*page
	said map[string]bool
}

// say writes sentences on a line of their own.
func (r *reader) say(format string, args ...any) { r.wrap("", 2, fmt.Sprintf(format, args...)) }

// shared gives what holds of a position whatever was not told: where ways differ in no more
// than what is said besides, the first choice alone, and all that is said with any of them.
func shared(p *pick.Position) *pick.Way {
	if w := p.Certain(); w != nil {
		return w
	}
	out := p.Ways[0]
	c := &out.Case
	c.Alternatives = c.Alternatives[:min(1, len(c.Alternatives))]
	c.Texts, c.Notes = slices.Clone(c.Texts), slices.Clone(c.Notes)
	for _, w := range p.Ways[1:] {
		c.Texts = added(c.Texts, w.Case.Texts)
		c.Notes = added(c.Notes, w.Case.Notes)
		out.Findings = slices.Concat(out.Findings, w.Findings)
		out.Care = slices.Concat(out.Care, w.Care)
	}
	return &out
}

// added gives a list with what it lacks of another.
func added[T comparable](list, more []T) []T {
	for _, one := range more {
		if !slices.Contains(list, one) {
			list = append(list, one)
		}
	}
	return list
}

// place says what is certain of a position.
func (r *reader) place(pos *pick.Position) {
	w, name := shared(pos), pos.Position.Name
	switch {
	case w.Missing:
		r.say("%s: this vehicle has no such place.", name)
	case !w.Settled():
		r.say("%s: this is not settled, and I may not name a part. Order nothing for it.", name)
	default:
		r.fit(name, w)
	}
	if len(w.Findings) > 0 && w.Settled() && slices.ContainsFunc(w.Findings, func(f *finding.Finding) bool { return f.Severity != finding.Note }) {
		r.say("The catalogue has a remark about that; look at it before anything is ordered.")
	}
}

// fit says what is fitted at a place, with what is to be heeded.
func (r *reader) fit(name string, w *pick.Way) {
	c := &w.Case
	text := spoken(strings.Join(c.Texts, "; "))
	switch c.Outcome {
	case model.Fitted:
		r.choices(name, w)
	case model.None:
		r.say("%s: nothing goes there, on purpose.%s", name, text)
	case model.Planned:
		r.say("%s: something is planned, and there is nothing to order yet.", name) // what is for nobody outside
	case model.Ask:
		r.say("%s: this has to be found out first.%s", name, text)
	default:
		r.say("%s: nothing is listed yet. That does not mean that nothing fits: ask before anything is ordered.", name)
	}
	for _, n := range notesOf(c) {
		r.once(levelOf(n), noteText(n))
	}
	for _, care := range w.Care {
		r.once("care", Care(care))
	}
}

// choices says what is taken, in order of preference.
func (r *reader) choices(name string, w *pick.Way) {
	switch all := w.Case.Alternatives; {
	case w.Case.With != nil:
		r.say("%s: it comes with the part at %s.", name, w.Case.With.Name)
	case len(all) == 1:
		r.say("%s: take %s.", name, together(all[0]))
	case len(all) > 1:
		r.say("%s: take %s.", name, together(all[0]))
		for _, a := range all[1:] {
			r.say("Or, if there is none, take %s.", together(a))
		}
	}
	for _, a := range w.Case.Alternatives {
		for _, i := range a {
			if i.Part.Kit() && !r.said[i.Part.Number] {
				r.said[i.Part.Number] = true
				r.say("%s is a kit. In it: %s.", i.Part.Number, together(contentsOf(i.Part)))
			}
		}
	}
}

// contentsOf lists what a kit holds.
func contentsOf(kit *model.Part) model.Alternative {
	var out model.Alternative
	for _, c := range kit.Contents {
		out = append(out, model.Item{Part: c.Part, Quantity: c.Quantity})
	}
	return out
}

// together says parts that are taken together.
func together(a model.Alternative) string {
	words := make([]string, len(a))
	for i, item := range a {
		words[i] = fmt.Sprintf("%d of %s", item.Quantity, partWords(item.Part))
	}
	return strings.Join(words, "; ")
}

// once reads a text where it comes up first.
func (r *reader) once(level, text string) {
	if text = spoken(text); text != "" && !r.said[text] {
		r.said[text] = true
		r.say("%s:%s", capital(level), text)
	}
}

// open says what is not known, and what to ask next.
func (r *reader) open(l *pick.List) {
	told := false
	for i := range l.Positions {
		p := &l.Positions[i]
		if known(p) {
			continue
		}
		if !told {
			told = true
			r.line("")
		}
		if !p.Exact {
			r.say("%s: more must be known of the vehicle before this can be told.", p.Position.Name)
			continue
		}
		r.say("%s: that depends on %s.", p.Position.Name, word.List(wire.Each(p.Depends, traitWords), "and"))
	}
	r.line("")
	r.next(l)
}

// next says what to ask: what takes the least to see, and how to tell it.
func (r *reader) next(l *pick.List) {
	asked := false
	var later []string
	for _, o := range l.Open {
		switch {
		case len(o.Positions) == 0:
		case asked:
			later = append(later, traitWords(o.Trait))
		default:
			asked = true
			r.ask(l, o)
		}
	}
	switch {
	case !asked:
		r.say("That is all; nothing more has to be asked. Where the vehicle is not as was said, stop and ask.")
	case len(later) > 0:
		r.say("What may have to be asked after that: %s.", word.List(later, "and"))
	}
}

// ask says a question, what may be answered, and how to tell.
func (r *reader) ask(l *pick.List, o pick.Open) {
	question := "What is " + traitWords(o.Trait) + "?"
	if o.Trait != nil && o.Trait.Question != "" {
		question = o.Trait.Question
	}
	r.say("Ask next: %s%s", question, spoken(l.TellWhole(o.Trait)))
	r.answers(l, o)
	places := make([]string, len(o.Positions))
	for i, d := range o.Positions {
		places[i] = d.Position.Name
	}
	r.say("It decides %s.", word.List(places, "and"))
}

// answers says what may be answered: values one by one, with how to tell each, and of the year
// or what stands on a line the ends.
func (r *reader) answers(l *pick.List, o pick.Open) {
	if o.Trait == nil || o.Trait.Kind.OnLine() {
		r.say("It is one of %s.", openValues(o))
		return
	}
	set := o.Values.Traits[0]
	for i, v := range o.Trait.Values {
		if set.Values.Has(i) {
			r.say("Is it %s?%s", v.Name, spoken(l.TellValue(v)))
		}
	}
	if set.Values.Has(o.Trait.Absent()) {
		r.say("Or is there no such thing on it?")
	}
}

// traitWords names a trait, or the model year for nil, within a sentence.
func traitWords(t *model.Trait) string {
	if t == nil {
		return "the model year"
	}
	return t.Name
}

// near says that no such vehicle is listed, and which are nearest.
func (r *reader) near(l *pick.List) {
	r.say("No such vehicle is listed, so I may not name a part for it. Something that was said of it is otherwise, or it is another platform.")
	for _, n := range l.Near[:min(len(l.Near), shownNear)] {
		words := make([]string, len(n.Changes))
		for i, c := range n.Changes {
			words[i] = fmt.Sprintf("%s instead of %s", c.Instead, c.Told)
		}
		r.say("Look again: is it %s?", word.List(words, "and"))
	}
}

// spoken gives a text that ends as a sentence does, with a blank before it; "" for none.
func spoken(text string) string {
	text = strings.TrimSpace(text)
	switch {
	case text == "":
		return ""
	case strings.HasSuffix(text, "."), strings.HasSuffix(text, "!"), strings.HasSuffix(text, "?"):
		return " " + text
	}
	return " " + text + "."
}

// capital is one of our own words as it begins a sentence.
func capital(word string) string { return strings.ToUpper(word[:1]) + word[1:] }
