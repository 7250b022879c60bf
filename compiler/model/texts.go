package model

import (
	"ferrule/compiler/measure"
	"ferrule/sheets/cell"
)

// Text is a text of the workbooks that guides print and that may be said in another language.
type Text struct {
	Text string
	What string // where it stands, in the words of the format: `the caution`, `How to tell`
	// Protects tells texts that nobody may be left to guess at: cautions, why nothing is
	// fitted, what to find out, what must not go together, what to check first, and grave inspections.
	Protects bool
	At       cell.Place // the cell, or the one that declares what the text is about
}

// Texts goes through all texts that guides print, in the order of the sheets; what stands in
// several cells comes several times. Numbers, sizes and measured values, platforms, makers and
// sources are names that read alike in every language, and are left out.
func (c *Catalogue) Texts(yield func(Text) bool) {
	w := texts{yield: yield, more: true}
	w.plain("title", c.Settings.Title, c.Settings.TitleAt)
	for _, p := range c.Platforms {
		w.plain("Summary", p.Summary, p.At)
		w.plain("How to tell", p.Tell, p.At)
	}
	w.tells(c.YearTell)
	for _, t := range c.Traits {
		w.trait(t)
	}
	for _, p := range c.Positions {
		w.plain("position", p.Name, p.At)
		w.plain("Summary", p.Summary, p.At)
	}
	for _, p := range c.Parts {
		w.part(p)
	}
	for _, f := range c.Fitments {
		w.fitment(f)
	}
	for _, r := range c.Rules {
		w.protects("reason", r.Reason, r.At)
		w.plain("Family", r.Family, r.PartAt)
	}
	for _, k := range c.Cautions {
		w.protects("caution", k.Text, k.At)
	}
	for _, k := range c.Complaints {
		w.complaint(k)
	}
	for _, k := range c.Inspections {
		w.inspection(k)
	}
}

// texts hands texts on as long as they are wanted.
type texts struct {
	yield func(Text) bool
	more  bool
}

func (w *texts) plain(what, text string, at cell.Place)    { w.say(Text{text, what, false, at}) }
func (w *texts) protects(what, text string, at cell.Place) { w.say(Text{text, what, true, at}) }

func (w *texts) say(t Text) {
	if w.more && TextKey(t.Text) != "" {
		w.more = w.yield(t)
	}
}

func (w *texts) trait(t *Trait) {
	w.plain("trait", t.Name, t.At)
	w.plain("Question", t.Question, t.At)
	w.tells(t.Tell)
	if t.Kind.OnLine() {
		return
	}
	for _, v := range t.Values {
		if t.Kind != Size && !figure(v.Name) {
			w.plain("value", v.Name, v.At)
		}
		w.tells(v.Tell)
	}
}

// figure tells a measured value, which reads alike in every language.
func figure(text string) bool {
	q, err := measure.ParseQuantity(text, measure.Options{})
	return err == nil && q.Known()
}

func (w *texts) tells(tells []Tell) {
	for _, t := range tells {
		w.plain("How to tell", t.Text, t.At)
	}
}

func (w *texts) part(p *Part) {
	if p.Misread {
		return
	}
	w.plain("Name", p.Name, p.At)
	w.plain("Family", p.Family, p.FamilyAt)
	w.plain("Summary", p.Summary, p.At)
	for i := range p.Properties {
		q := &p.Properties[i]
		if !q.Public || q.Refused || q.Text == "" {
			continue
		}
		w.plain("column", q.Name, q.At)
		if !q.Quantity.Known() && q.Behind() == "" && !figure(q.Text) {
			w.plain(q.Name, q.Text, q.At)
		}
	}
	if f := p.ReplacedBy; f != nil && f.Outcome != Fitted {
		w.protects("reason", f.Text, p.ReplacedAt)
	}
	w.notes(p.Cautions, true, p.At)
}

func (w *texts) fitment(f *Fitment) {
	for _, c := range f.Cells {
		switch c.Fits.Outcome {
		case None:
			w.protects("reason", c.Fits.Text, c.At)
		case Ask:
			w.protects("question", c.Fits.Text, c.At)
		}
		w.notes(c.Notes.All(), false, c.At)
	}
}

// notes passes over cautions, which stand on their own sheet.
func (w *texts) notes(notes []Note, protect bool, at cell.Place) {
	for _, n := range notes {
		if n.Caution == nil {
			w.say(Text{n.Text, "note", protect, at})
		}
	}
}
