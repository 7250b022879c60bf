package guide

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/decide"
	"ferrule/compiler/identify"
	"ferrule/compiler/identify/walk"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// finder is what the page of a platform knows of how its vehicles are told apart.
// Traits have the numbers of the platform's space; the page numbers what is asked in
// the order of asking, and the values of a trait as far as they occur.
type finder struct {
	guide   *decide.Guide
	order   []int
	number  map[int]int // of what is asked
	uses    []decide.TraitUse
	decides map[int][]link
	named   map[*model.Trait]bool // that something on the page speaks of
	anchors map[*model.Trait]string
	has     occurring
}

func (s *site) finder(g *decide.Guide, has occurring) *finder {
	f := &finder{guide: g, order: g.Finder.Order, number: map[int]int{}, decides: map[int][]link{},
		named: map[*model.Trait]bool{}, anchors: map[*model.Trait]string{}, has: has, uses: make([]decide.TraitUse, len(s.cat.Traits))}
	for i, t := range f.order {
		f.number[t] = i
	}
	for _, u := range g.Traits {
		f.anchors[u.Trait] = fmt.Sprint("q", len(f.anchors)+1)
	}
	for _, u := range g.Traits {
		f.uses[u.Trait.Index] = u
	}
	for _, a := range g.Answers {
		if !exists(a) {
			continue
		}
		for t := range identify.Asks(a.Questions.Tree).Values() {
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
	return f
}

// link leads to where the page says how to tell a trait.
func (f *finder) link(t *model.Trait) link { return link{t.Name, "#" + f.anchors[t]} }

// speaksOf tells whether the page has to say how to tell a trait.
func (f *finder) speaksOf(u decide.TraitUse) bool {
	_, asked := f.number[u.Trait.Index+1]
	return asked || f.named[u.Trait] && u.Values.Len() > 1
}

func (f *finder) name(w where) {
	for _, t := range w.Terms {
		f.named[t.Trait] = true
	}
}

// Exist says which vehicles exist: boxes with `;` between them, in each what is
// restricted as `number=values`; "" where that is not known.
func (f *finder) Exist() string {
	boxes := make([]string, len(f.guide.Finder.Exist))
	for i, b := range f.guide.Finder.Exist {
		var terms []string
		for n, t := range f.order {
			if set := b.At(t); set != nil {
				terms = append(terms, strconv.Itoa(n)+"="+f.values(t, set))
			}
		}
		boxes[i] = strings.Join(terms, " ")
	}
	return strings.Join(boxes, ";")
}

// first gives what to ask first. It takes the longest to find out, and is the same for
// everybody: the page need not.
func (f *finder) first() int {
	if len(f.order) == 0 {
		return -1
	}
	if ask := walk.Of(f.guide).Next(walk.State{}); ask >= 0 {
		return f.number[ask]
	}
	return -1
}

// values lists values of a trait as the page numbers them: `0-4,7`.
func (f *finder) values(trait int, set space.Set) string {
	if trait > 0 {
		set = renumber(set, f.uses[trait-1].Values)
	}
	var out []string
	for lo, hi := range set.Runs() {
		run := strconv.Itoa(lo)
		if hi > lo {
			run += "-" + strconv.Itoa(hi)
		}
		out = append(out, run)
	}
	return strings.Join(out, ",")
}

// renumber gives a set with its values counted among those that occur.
func renumber(set, occur space.Set) space.Set {
	var out []int
	n := 0
	for v := range occur.Values() {
		if set.Has(v) {
			out = append(out, n)
		}
		n++
	}
	return space.SetOf(out...)
}

// step is a question of a place with what follows from each answer, or an end.
type step struct {
	Ask  link // to the trait; no text at an end
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
	Whom   whom
}

// hidden is a trait that decides and that the catalogue does not say how to see.
type hidden struct {
	Trait    link
	Question string
	Measure  bool
}

// steps gives the questions of a place; nil where there are none to be given.
func (s *site) steps(f *finder, a *decide.Answer, p *place) *step {
	if a.Questions.Tree == nil {
		return nil
	}
	return s.step(f, a, p, a.Questions.Tree, nil)
}

func (s *site) step(f *finder, a *decide.Answer, p *place, t *space.Tree, path space.Box) *step {
	if t.Trait < 0 {
		return &step{End: s.end(f, a, p, t.Classes, path)}
	}
	out := &step{Ask: link{"Model year", "#years"}}
	if t.Trait > 0 {
		out.Ask = f.link(s.cat.Traits[t.Trait-1])
	}
	for _, b := range t.Branches {
		w := way{Next: s.step(f, a, p, b.Next, path.With(t.Trait, b.Values))}
		if v := f.values(t.Trait, b.Values); v != strconv.Itoa(len(out.Ways)) {
			w.Values = v
		}
		if t.Trait == 0 {
			w.Years = unbroken(model.SpanWords(f.guide.Platform.Spans(b.Values)))
		} else {
			w.Term = namesOf(s.cat.Traits[t.Trait-1], b.Values)
		}
		out.Ways = append(out.Ways, w)
	}
	return out
}

// namesOf names values of a trait.
func namesOf(t *model.Trait, set space.Set) term {
	out := term{Trait: t, Absent: set.Has(t.Absent())}
	for i, v := range t.Values {
		if set.Has(i) {
			out.Names = append(out.Names, v.Name)
		}
	}
	return out
}

func (s *site) end(f *finder, a *decide.Answer, p *place, classes []int, path space.Box) *end {
	out := &end{Place: p.Number, Whom: s.whom(), Absent: len(classes) == 1 && classes[0] == a.Classes}
	for i := range a.Cases {
		if slices.Contains(classes, a.Cases[i].Class) && f.meets(a.Cases[i].Where, path) {
			out.Lines = append(out.Lines, i+1)
			out.Fit = p.Table.Rows[i].Fit
		}
	}
	if len(classes) > 1 {
		out.Hidden = s.hidden(f, a, classes, path)
	}
	return out
}

// meets tells whether a box of the catalogue holds anything of a box of the platform.
func (f *finder) meets(b model.Box, path space.Box) bool {
	if years := path.At(0); years != nil && b.Years != nil {
		in := false
		for i := range years.Values() {
			y := f.guide.Platform.Years[i]
			in = in || slices.ContainsFunc(b.Years, func(s model.Span) bool { return s.From <= y && y <= s.To })
		}
		if !in {
			return false
		}
	}
	for _, t := range b.Traits {
		if set := path.At(t.Trait.Index + 1); set != nil && !set.Meets(t.Values) {
			return false
		}
	}
	return true
}

// hidden lists what would tell the classes apart and cannot be seen.
func (s *site) hidden(f *finder, a *decide.Answer, classes []int, path space.Box) []hidden {
	var out []hidden
	seen := map[*model.Trait]bool{}
	for i := range a.Cases {
		if !slices.Contains(classes, a.Cases[i].Class) || !f.meets(a.Cases[i].Where, path) {
			continue
		}
		for _, t := range f.has.where(a.Cases[i].Where).Terms {
			if f.guide.Finder.Effort[t.Trait.Index+1] == 0 && !seen[t.Trait] {
				seen[t.Trait] = true
				out = append(out, hidden{Trait: f.link(t.Trait), Question: t.Trait.Question, Measure: t.Trait.Kind == model.Size})
			}
		}
	}
	return out
}
