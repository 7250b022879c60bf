package fleet

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
)

// Place is what is known of one position of a vehicle. Vehicles of which the same is known share it.
type Place struct {
	Position *model.Position
	State    State
	Items    []Item         // what is ordered for one vehicle
	Choice   string         // what else would do, "" for nothing
	Says     string         // what is open, or why nothing is ordered; "" where that is plain
	Depends  []*model.Trait // that would settle it; nil stands for the model year
	Ask      []string       // what no column answers, as cells ask it
	Notes    []model.Note   // of what may be fitted
	Care     []string       // what Compatibility says of it
	// Look is what to look at before anything is fitted there: of the place, and of the vehicle as a whole.
	Look     []*model.Inspection
	Cautions []int // numbers of Look, Notes and Care among the cautions of the fleet, from 1
}

// State is what is known of a place.
type State uint8

const (
	Certain   State = iota // what is fitted is known
	Nothing                // it is known that nothing is ordered
	Open                   // it depends on what was not told
	Unsettled              // the catalogue does not say, or not yet
)

func (s State) String() string { return [...]string{"certain", "nothing", "open", "not settled"}[s] }

// Settled tells whether nothing more is to be found out about the place.
func (p *Place) Settled() bool { return p.State == Certain || p.State == Nothing }

// Item is a part with how many of it one vehicle takes at a place, at least and at most.
type Item struct {
	Part        *model.Part
	Least, Most int64
}

// taker takes the answers of one platform, each place once.
type taker struct {
	cat      *model.Catalogue
	platform *model.Platform
	places   map[string]*Place
	tells    map[*model.Trait]string
}

func newTaker(cat *model.Catalogue, p *model.Platform) *taker {
	return &taker{cat, p, map[string]*Place{}, map[*model.Trait]string{}}
}

// take keeps of an answer what a fleet tells. crowd is nil where the vehicle was asked about alone.
func (t *taker) take(g *group, l *pick.List, err error, crowd *pick.Crowd) {
	switch {
	case err != nil:
		g.miss = &miss{what: err.Error()}
	case l.Missing():
		g.miss = missOf(g.query, l, crowd)
	default:
		for i := range l.Positions {
			g.places = append(g.places, t.place(&l.Positions[i], looksAt(l, l.Positions[i].Position)))
		}
		g.asks = t.asksOf(l, g.places)
	}
}

// place gives the place that is the same for all vehicles of which the same is known.
func (t *taker) place(p *pick.Position, look []*model.Inspection) *Place {
	key := keyOf(p)
	for _, n := range look {
		key += fmt.Sprintf(" look %p", n)
	}
	if known, ok := t.places[key]; ok {
		return known
	}
	out := placeOf(p)
	out.Look = look
	t.places[key] = out
	return out
}

// looksAt gives the inspections of a place, the gravest first, with those of the vehicle as a whole.
func looksAt(l *pick.List, p *model.Position) []*model.Inspection {
	var out []*model.Inspection
	for _, u := range l.Inspections {
		if u.Row.Position == nil || u.Row.Position == p {
			out = append(out, u.Row)
		}
	}
	return out
}

func keyOf(p *pick.Position) string {
	var b strings.Builder
	fmt.Fprint(&b, p.Position.Index, p.Exact)
	for i := range p.Ways {
		fmt.Fprintf(&b, " %p %p %d %t %t", first(p.Ways[i].Case.Alternatives), first(p.Ways[i].Case.Cells), p.Ways[i].Case.Outcome, p.Ways[i].Missing, p.Ways[i].Case.Unsettled)
	}
	for i := range p.Ways {
		for _, c := range p.Ways[i].Care {
			fmt.Fprintf(&b, " %p", c.Rule)
		}
	}
	for _, d := range p.Depends {
		b.WriteByte('|')
		if d != nil {
			fmt.Fprint(&b, d.Index)
		}
	}
	return b.String()
}

func first[T any](all []T) *T {
	if len(all) == 0 {
		return nil
	}
	return &all[0]
}

func placeOf(p *pick.Position) *Place {
	out := &Place{Position: p.Position, Depends: p.Depends}
	if !p.Exact {
		out.State, out.Says = Unsettled, "too irregular to be worked out: tell more of the vehicle"
		return out
	}
	for i := range p.Ways {
		out.notes(&p.Ways[i])
	}
	if _, certain := p.First(); certain {
		out.certain(p.Ways)
		return out
	}
	out.ranges(p.Ways)
	if len(p.Ways) == 1 {
		out.State, out.Says = Unsettled, wayWords(&p.Ways[0])
		return out
	}
	out.State = Open
	words := make([]string, len(p.Ways))
	for i := range p.Ways {
		words[i] = wayWords(&p.Ways[i])
	}
	out.Says = fmt.Sprintf("depends on %s: %s", names(p.Depends), strings.Join(words, "; or "))
	return out
}

// certain says a place of which all vehicles asked about begin with the same.
func (p *Place) certain(ways []pick.Way) {
	p.Depends = nil
	w := &ways[0]
	c := &w.Case
	if c.Outcome == model.Gap || c.Outcome == model.Planned || c.Outcome == model.Ask {
		p.State, p.Says = Unsettled, wayWords(w)
		return
	}
	if len(c.Alternatives) == 0 {
		p.State, p.Says = Nothing, wayWords(w)
		return
	}
	p.ranges(ways[:1])
	p.Choice = choice(w)
	for i := range ways {
		if choice(&ways[i]) != p.Choice {
			p.Choice = "first choice; what else would do differs among such vehicles"
		}
	}
}

// choice says what would do where the first choice is not to be had, "" for nothing.
func choice(w *pick.Way) string {
	all := w.Case.Alternatives
	if len(all) < 2 {
		return ""
	}
	words := make([]string, len(all)-1)
	for i, a := range all[1:] {
		words[i] = itemWords(a)
	}
	return "first choice; else " + strings.Join(words, ", or else ")
}

// ranges adds up what the first choice of each way takes. Where a way is not settled, or the
// place is not there, it takes none.
func (p *Place) ranges(ways []pick.Way) {
	for i := range ways {
		w := &ways[i]
		taken := map[*model.Part]int64{}
		if !w.Missing && w.Settled() && len(w.Case.Alternatives) > 0 {
			for _, it := range w.Case.Alternatives[0] {
				if taken[it.Part] == 0 && !slices.ContainsFunc(p.Items, func(x Item) bool { return x.Part == it.Part }) {
					p.Items = append(p.Items, Item{Part: it.Part, Least: -1})
				}
				taken[it.Part] += int64(it.Quantity)
			}
		}
		for k := range p.Items {
			x := &p.Items[k]
			n := taken[x.Part]
			switch {
			case x.Least < 0 && i > 0:
				x.Least = 0 // a way before this one takes none
			case x.Least < 0:
				x.Least = n
			default:
				x.Least = min(x.Least, n)
			}
			x.Most = max(x.Most, n)
		}
	}
}

// notes gathers what is printed beside what may be fitted, and what cells ask.
func (p *Place) notes(w *pick.Way) {
	if w.Missing || !w.Settled() {
		return
	}
	if w.Case.Outcome == model.Ask {
		for _, text := range w.Case.Texts {
			if !slices.Contains(p.Ask, text) {
				p.Ask = append(p.Ask, text)
			}
		}
	}
	add := func(notes []model.Note) {
		for _, n := range notes {
			if !slices.Contains(p.Notes, n) {
				p.Notes = append(p.Notes, n)
			}
		}
	}
	for _, c := range w.Care {
		if !slices.Contains(p.Care, c.Reason) {
			p.Care = append(p.Care, c.Reason)
		}
	}
	add(w.Case.Notes)
	for _, a := range w.Case.Alternatives {
		for _, it := range a {
			add(it.Part.Cautions)
			it.Part.Within(func(held *model.Part) { add(held.Cautions) })
		}
	}
}

func wayWords(w *pick.Way) string {
	c := &w.Case
	switch {
	case w.Missing:
		return "the vehicle has no such place"
	case !w.Settled():
		return "not settled: order nothing, and ask"
	case c.Outcome == model.Gap:
		return "nothing is listed yet"
	case c.With != nil:
		return "comes with " + c.With.Name
	case len(c.Alternatives) > 0:
		return itemWords(c.Alternatives[0])
	}
	return strings.TrimSuffix(c.Outcome.String()+": "+strings.Join(c.Texts, "; "), ": ")
}

func itemWords(a model.Alternative) string {
	words := make([]string, len(a))
	for i, it := range a {
		words[i] = fmt.Sprintf("%d x %s", it.Quantity, it.Part.Number)
	}
	return strings.Join(words, " + ")
}

func names(traits []*model.Trait) string {
	words := make([]string, len(traits))
	for i, t := range traits {
		words[i] = pick.Name(t)
	}
	return strings.Join(words, ", ")
}

// Columns gives the headings of what a place depends on.
func (p *Place) Columns() []string {
	var out []string
	for _, t := range p.Depends {
		out = append(out, pick.Name(t))
	}
	return out
}
