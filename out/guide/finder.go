package guide

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/judge/identify/walk"
	"ferrule/compiler/model"
)

// finder is what the page of a platform knows of how its vehicles are told apart.
// Traits have the numbers of a decide.Finder; the page numbers what is asked in
// the order of asking and what else may be known of a vehicle behind it, and the values
// of a trait as far as they occur.
type finder struct {
	guide   *decide.Guide
	order   []int           // what may be known: first what is asked
	asked   int             // how many of the order are asked
	number  map[int]int     // of what may be known
	exist   decide.Vehicles // none where they are not known
	uses    []model.TraitSet
	numbers map[int][]int // of traits on a line: see merged
	decides map[int][]link
	named   map[*model.Trait]bool   // that something on the page speaks of, as declared
	anchors map[*model.Trait]string // by traits as declared
	has     occurring
	lacks   lacks
}

func (s *site) finder(g *decide.Guide, has occurring) *finder {
	f := &finder{guide: g, asked: len(g.Finder.Order), number: map[int]int{}, numbers: map[int][]int{}, decides: map[int][]link{},
		named: map[*model.Trait]bool{}, anchors: map[*model.Trait]string{}, has: has, uses: make([]model.TraitSet, len(s.cat.Traits))}
	f.may(g.Finder.Order...)
	f.may(0)
	for _, u := range g.Traits {
		f.may(u.Trait.Index + 1)
		f.anchors[u.Trait.Declared()] = fmt.Sprint("q", len(f.anchors)+1)
		f.uses[u.Trait.Index] = u
	}
	f.exist = g.Exist()
	for _, u := range g.Traits {
		if u.Trait.Kind.OnLine() {
			f.numbers[u.Trait.Index+1] = f.merged(u)
		}
	}
	for _, a := range g.Answers {
		if !exists(a) {
			continue
		}
		for _, t := range a.Questions.Tree.Traits() {
			f.decides[t] = append(f.decides[t], s.placeLink(g, a.Position))
		}
		for i := range a.Cases {
			f.name(has.where(a.Cases[i].Where))
		}
		for _, t := range airLines(a.Position, g.Platform) {
			f.named[t] = true
		}
	}
	for _, r := range g.Rules {
		for _, b := range r.Where {
			f.name(has.where(b))
		}
	}
	for _, b := range f.besides() {
		f.name(has.where(b))
	}
	return f
}

// link leads to where the page says how to tell a trait.
func (f *finder) link(t *model.Trait) link { return link{t.Name, "#" + f.anchors[t.Declared()]} }

// use gives the values of a trait; the year has none here.
func (f *finder) use(trait int) model.TraitSet {
	if trait == 0 {
		return model.TraitSet{}
	}
	return f.uses[trait-1]
}

// may adds traits that may be known of a vehicle, each once.
func (f *finder) may(traits ...int) {
	for _, t := range traits {
		if _, known := f.number[t]; !known {
			f.number[t] = len(f.order)
			f.order = append(f.order, t)
		}
	}
}

// asks tells whether the finder may ask for a trait.
func (f *finder) asks(trait int) bool { return f.number[trait] < f.asked }

// speaksOf tells whether the page has to say how to tell a trait.
func (f *finder) speaksOf(u model.TraitSet) bool {
	return f.asks(u.Trait.Index+1) || f.named[u.Trait.Declared()] && u.Values.Len() > 1
}

func (f *finder) name(w where) {
	for _, t := range w.Terms {
		f.named[t.Trait] = true
	}
}

// first gives what to ask first. It takes the longest to find out, and is the same for
// everybody: the page need not.
func (f *finder) first() int {
	if f.asked == 0 {
		return -1
	}
	if ask := walk.Of(f.guide).Next(walk.State{}); ask >= 0 {
		return f.number[ask]
	}
	return -1
}

// values lists values of a trait as the page numbers them: `0-4,7`.
func (f *finder) values(trait int, in decide.Values) string {
	var out []string
	run := func(lo, hi int) {
		words := strconv.Itoa(lo)
		if hi > lo {
			words += "-" + strconv.Itoa(hi)
		}
		out = append(out, words)
	}
	numbers := f.numbers[trait]
	if numbers == nil {
		for lo, hi := range in.Among(f.guide.Occur(trait)).Runs() {
			run(lo, hi)
		}
		return strings.Join(out, ",")
	}
	lo, hi := -1, -2
	for v, n := range numbers {
		switch {
		case n < 0 || !in.Has(v) || n == hi:
			continue
		case n > hi+1 && lo >= 0:
			run(lo, hi)
			lo = n
		case lo < 0:
			lo = n
		}
		hi = n
	}
	if lo >= 0 {
		run(lo, hi)
	}
	return strings.Join(out, ",")
}

// step is a question of a place with what follows from each answer, or an end.
type step struct {
	So   *where // what the answers so far tell besides, to be checked, and was not told before; nil: nothing
	Ask  link   // to the trait; no text at an end
	Ways []way
	End  *end
}

type way struct {
	Values string // as the page numbers them; "" for the one with the number of the way
	Years  string // of the year
	Term   term   // of a trait
	Next   *step
}

// end is what holds for the vehicles that a way leads to.
type end struct {
	Place  int   // its number
	Absent bool  // the place does not exist on these vehicles
	Lines  []int // of the table, counted from 1
	Fit    fit
	Hidden []hidden // several classes: what would tell them apart
	So     *where   // what else is true of these vehicles, to be checked, and was not told before; nil: nothing
	Whom   whom
}

// hidden is a trait that decides and that the catalogue does not say how to see.
type hidden struct {
	Trait    link
	Question string
	Measure  bool
}

// steps gives the questions of a place; nil where there are none to be given, and where
// it is not known which vehicles exist.
func (s *site) steps(f *finder, a *decide.Answer, p *place) *step {
	if a.Questions.Tree == nil || f.exist.None() {
		return nil
	}
	return s.step(f, a, p, a.Questions.Tree, f.exist, nil)
}

// step leaves out ways that no vehicle takes, and a question that has one way left. What was
// told on the way here is not told again; told is nil before the first answer.
func (s *site) step(f *finder, a *decide.Answer, p *place, t *decide.Tree, vehicles decide.Vehicles, told *where) *step {
	if t.Trait < 0 {
		return &step{End: s.end(f, a, p, t.Classes, vehicles, told)}
	}
	open := t.Open(vehicles)
	if len(open) == 1 {
		return s.step(f, a, p, open[0].Next, vehicles, told)
	}
	out := &step{Ask: link{s.tongue.Say("Model year"), "#years"}}
	so := new(where)
	if told != nil {
		*so = f.so(vehicles)
		out.So = so.beyond(told)
	}
	if t.Trait > 0 {
		out.Ask = f.link(s.cat.Traits[t.Trait-1])
	}
	for i, b := range open {
		next := s.step(f, a, p, b.Next, vehicles.With(t.Trait, b.Values), so)
		out.Ways = append(out.Ways, s.way(f, t.Trait, b.Values, i, next))
	}
	return out
}

// way is the answer that leads to what follows.
func (s *site) way(f *finder, trait int, values decide.Values, number int, next *step) way {
	w := way{Next: next}
	if v := f.values(trait, values); v != strconv.Itoa(number) {
		w.Values = v
	}
	if trait == 0 {
		w.Years = f.years(values)
	} else {
		w.Term = namesOf(f.uses[trait-1].Trait, values)
	}
	return w
}

// years says years of the platform.
func (f *finder) years(in decide.Values) string {
	return f.has.spans(f.guide.Years(in))
}

// namesOf names values of a trait of the platform.
func namesOf(t *model.Trait, in decide.Values) term {
	var all []int
	for v := range t.Absent() + 1 {
		if in.Has(v) {
			all = append(all, v)
		}
	}
	names, absent := t.Is(all...).Names()
	return term{Trait: t.Declared(), Names: names, Absent: absent}
}

func (s *site) end(f *finder, a *decide.Answer, p *place, classes []int, vehicles decide.Vehicles, told *where) *end {
	out := &end{Place: p.Number, Whom: s.whom(), Absent: len(classes) == 1 && classes[0] == a.Classes, So: f.so(vehicles).beyond(told)}
	for i := range a.Cases {
		if slices.Contains(classes, a.Cases[i].Class) && vehicles.Meet(f.guide.Of(a.Cases[i].Where)) {
			out.Lines = append(out.Lines, i+1)
			out.Fit = p.Table.Rows[i].Fit
		}
	}
	if len(classes) > 1 {
		out.Hidden = s.hidden(f, a, out.Lines)
	}
	return out
}

// hidden lists what would tell some lines of a table apart and cannot be seen.
func (s *site) hidden(f *finder, a *decide.Answer, lines []int) []hidden {
	var out []hidden
	seen := map[*model.Trait]bool{}
	for _, line := range lines {
		for _, t := range f.has.where(a.Cases[line-1].Where).Terms {
			if f.guide.Finder.Effort[t.Trait.Index+1] == 0 && !seen[t.Trait] {
				seen[t.Trait] = true
				out = append(out, hidden{Trait: f.link(t.Trait), Question: t.Trait.Question, Measure: t.Trait.Kind == model.Size})
			}
		}
	}
	return out
}
