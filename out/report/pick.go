package report

import (
	"fmt"
	"io"
	"strings"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Pick writes a pick list for people: what was asked, each position, what was left open,
// and what to order.
func Pick(w io.Writer, l *pick.List, o Options) error {
	p := &pickPage{newPage(w, o), map[string]string{}}
	p.asked(l.Query, l)
	if l.Configurations.Sign() == 0 {
		p.near(l)
		return p.err
	}
	p.inspections(l.Inspections)
	if l.Complaint != nil {
		p.complaint(l.Complaint)
		p.open(l)
		return p.err
	}
	for i := range l.Positions {
		p.line("")
		p.place(&l.Positions[i])
	}
	p.open(l)
	p.order(l)
	return p.err
}

// pickPage remembers where each caution was first printed: many parts carry the same.
type pickPage struct {
	*page
	said map[string]string // the position, by text
}

func newPage(w io.Writer, o Options) *page {
	o = newText(o).Options
	return &page{w: w, width: max(o.Width, narrowest), color: o.Color}
}

// asked says which vehicles are meant, and how many they are.
func (p *page) asked(q *pick.Query, l *pick.List) {
	p.wrap("", 0, Asked(q))
	p.taken(l.Taken)
	if l.Configurations.Sign() > 0 {
		p.line(HowMany(l.Configurations, l.OnTheRoad))
		if so := Follows(l); so != "" {
			p.wrap("", 0, so)
		}
	}
}

// certain leaves of what follows the years, and the traits that have one value left.
func certain(b model.Box) model.Box {
	out := model.Box{Years: b.Years}
	for _, t := range b.Traits {
		if t.Values.Len() == 1 {
			out.Traits = append(out.Traits, t)
		}
	}
	return out
}

// near says that there is no such vehicle, and what would have to be told differently.
func (p *page) near(l *pick.List) {
	if len(l.Near) == 0 {
		p.wrap("", 0, "no row of Vehicles is about "+l.Query.Platform.Name+", so nothing can be said of it")
		return
	}
	if l.Listed {
		p.unbuilt(l)
		p.line("the nearest that exist have")
	} else {
		p.wrap("", 0, "no row of Vehicles holds such a vehicle; the nearest that exist have")
	}
	for _, n := range l.Near[:min(len(l.Near), shownNear)] {
		p.wrap("  ", 2, Nearest(n))
		p.aside("example", n.Example.String())
	}
	if n := len(l.Near) - shownNear; n > 0 {
		p.wrap("  ", 2, fmt.Sprintf("+%d more ways with as many changes", n))
	}
}

// shownNear is how many ways to a vehicle that exists are told.
const shownNear = 8

// place says what is known of a position.
func (p *pickPage) place(pos *pick.Position) {
	title := p.paint(bold, pos.Position.Name)
	switch {
	case !pos.Exact:
		p.painted(title)
		p.wrap("  ", 2, "too irregular to be worked out for all of these vehicles; tell more of the vehicle")
	case pos.Certain() != nil:
		p.painted(title)
		p.way(pos.Position, pos.Certain())
	default:
		p.painted(title + ": " + clean(Ways(pos)))
		for i := range pos.Ways {
			w := &pos.Ways[i]
			p.where(w.Where)
			p.way(pos.Position, w)
		}
	}
}

func dependence(traits []*model.Trait) string {
	names := make([]string, len(traits))
	for i, t := range traits {
		names[i] = pick.Name(t)
	}
	return word.List(names, "and")
}

// where says which of the vehicles a way is about.
func (p *page) where(boxes []model.Box) {
	for _, b := range boxes[:min(len(boxes), shownBoxes)] {
		p.wrap("  "+p.paint(dim, "where")+" ", 8, b.String())
	}
	if n := len(boxes) - shownBoxes; n > 0 {
		p.wrap("        ", 8, fmt.Sprintf("+%d more boxes", n))
	}
}

func (p *pickPage) way(pos *model.Position, w *pick.Way) {
	switch {
	case w.Missing:
		p.wrap("    ", 4, "the vehicle has no such position")
	case !w.Settled():
		p.wrap("    ", 4, "not settled: no part may be named")
	default:
		p.says(pos, w)
	}
	for _, f := range w.Findings {
		p.against(f, w.Settled())
	}
}

// says tells what is fitted, and what else is printed with it.
func (p *pickPage) says(pos *model.Position, w *pick.Way) {
	c := &w.Case
	switch c.Outcome {
	case model.Fitted:
		if c.With != nil {
			p.wrap("    ", 4, "comes with the item at "+c.With.Name)
		}
		for i, a := range c.Alternatives {
			p.alternative(i, a)
		}
	default:
		p.wrap("    ", 4, Said(c))
	}
	for _, n := range notesOf(c) {
		p.note(pos, n)
	}
	for _, r := range w.Care {
		p.care(r)
	}
}

// alternative says one choice, the parts of one on lines of their own.
func (p *page) alternative(i int, a model.Alternative) {
	for k, item := range a {
		lead := "    "
		switch {
		case k > 0:
			lead = "     + "
		case i > 0:
			lead = "    or "
		}
		p.wrap(lead, len(lead), itemWords(item.Part, item.Quantity))
		p.contents(item.Part, len(lead)+2)
	}
}

func itemWords(part *model.Part, quantity int) string {
	words := fmt.Sprintf("%d x %s", quantity, part.Number)
	if part.Name != "" {
		words += ", " + part.Name
	}
	if part.Status != model.Current {
		words += " (" + part.Status.String() + ")"
	}
	return words
}

// contents lists what is in a kit, and in the kits in it. One that comes up again is not opened
// again, and what lies deeper than a page is wide is not set in further.
func (p *page) contents(kit *model.Part, indent int) {
	p.opened(kit, indent, map[*model.Part]bool{})
}

func (p *page) opened(kit *model.Part, indent int, seen map[*model.Part]bool) {
	if seen[kit] {
		return
	}
	seen[kit] = true
	for _, c := range kit.Contents {
		lead := strings.Repeat(" ", min(indent, deepest)) + "holds "
		p.wrap(lead, len(lead), itemWords(c.Part, c.Quantity))
		p.opened(c.Part, indent+6, seen)
	}
}

// deepest is how far what kits hold is set in at most.
const deepest = 36

// open says what was not told: what it decides, and what makes no difference.
func (p *page) open(l *pick.List) {
	if len(l.Open) == 0 {
		return
	}
	var idle []string
	told := false
	for _, o := range l.Open {
		if len(o.Positions) == 0 {
			idle = append(idle, pick.Name(o.Trait))
			continue
		}
		if !told {
			p.line("")
			p.line("not told, and it decides (what takes the least to see first):")
			told = true
		}
		p.wrap("  ", 4, openValues(o)+": "+OpenPositions(o))
		if o.Trait != nil && o.Trait.Question != "" {
			p.aside("question", o.Trait.Question)
		}
		if tell := l.HowToTell(o.Trait); tell != "" {
			p.aside("to tell", tell)
		}
	}
	if len(idle) > 0 {
		p.line("")
		p.wrap("", 2, "not told, and it makes no difference: "+strings.Join(idle, ", "))
	}
}

func (p *page) order(l *pick.List) {
	p.line("")
	open := 0
	for i := range l.Positions {
		if _, certain := l.Positions[i].First(); !certain {
			open++
		}
	}
	title := "to order, by first choice"
	if open > 0 {
		title += fmt.Sprintf(" (%d of %s not counted: open or not settled)", open, count(len(l.Positions), "position"))
	}
	p.wrap("", 0, title+":")
	for _, line := range l.Order {
		p.wrap("    ", 4, itemWords(line.Part, line.Quantity))
		p.contents(line.Part, 6)
	}
	if len(l.Order) == 0 {
		p.line("    nothing")
	}
}
