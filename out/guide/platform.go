package guide

import (
	"cmp"
	"slices"
	"strconv"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// platformPage is the guide of one platform.
type platformPage struct {
	frame
	Name, Maker, Years, Summary string
	Tell                        string
	Picture                     *image
	Exist                       string  // which vehicles exist, for the script; "" where that is not known
	Also                        string  // what people call the platform, traits and values besides, as JSON for the script; "" for nothing
	Vehicles                    []where // the same for people; none where that would take too many lines
	First                       int     // the number of the question to ask first; -1: nothing needs to be asked
	Begin                       *begin  // what the finder begins with; nil: there is no finder
	Questions                   []question
	Fixed                       []fixed // traits that are the same on all its vehicles
	Idle                        []idle  // traits that differ, and that nothing here depends on
	Places                      []place
	Plan                        *plan
	Rules                       []rule
	Complaints                  []complaint
	Inspections                 []inspection
	Changes                     string // the page that says what has changed; "" for none
}

// place is one position: where it is, and what fits there.
type place struct {
	Number                int // counted from 1
	Name, Anchor, Summary string
	Axle, Side            string
	At                    string // both in words: `front axle, both sides`; "" for neither
	Picture               *image
	Steps                 *step    // how to find its line; nil: by reading the table
	Map                   *yearMap // nil: nothing to be told apart by a picture
	Pair                  link
	Lines                 []link // traits that say the size of its air line
	Quantity              string
	Cautions              cautions // of everything that the table offers
	Rules                 []rule   // about parts that the table offers, that hold for vehicles with this place
	Table                 table
}

// table lists disjoint cases, a row each. Columns are the traits that tell them
// apart; where those are many they share one column.
type table struct {
	Columns []link // "" text: the shared column
	Rows    []row
}

type row struct {
	Years string
	Cells []cell
	Fit   fit
	Rules []ruling // about parts that are offered, that hold for vehicles of the line
	About string   // the numbers of all rules about parts that are offered, with spaces between them
}

// cell holds what one row asks of a column's traits: none is any.
type cell struct {
	Label string // the column's, for rows that are stacked; "" for the shared column
	Terms []term
}

// columnsAtMost is how many traits get a column of their own; more would not leave
// room for the parts on a printed sheet.
const columnsAtMost = 3

// existAtMost is how many lines say which vehicles exist; nobody would look through more.
const existAtMost = 40

func (s *site) platformPage(g *decide.Guide) *platformPage {
	pl := g.Platform
	has := s.occurringOf(g.Traits)
	p := &platformPage{
		frame: s.frame(s.platformFiles[pl], pl.Name),
		Name:  pl.Name, Maker: pl.Maker, Years: s.yearWords(pl.Years), Summary: s.tr(pl.Summary),
		Tell: s.tr(pl.Tell), Picture: s.image(pl.Picture, seenOn(pl.Name, s.tr(cmp.Or(pl.Tell, pl.Summary)))),
	}
	p.Data, p.Script, p.Image = s.book.PlatformData(pl), "finder.js", s.share(pl.Picture, pl.Name)
	if slices.ContainsFunc(g.Traits, func(u model.TraitSet) bool { return u.Trait.Kind.OnLine() }) {
		p.Reads = append(p.Reads, "line.js")
	}
	p.Changes = s.changesOf(pl)
	p.describe(s.platformDescription(pl))
	f := s.finder(g, has)
	f.lacks = s.lacks(pl)
	s.ask(f)
	p.Exist, p.Also, p.First = f.Exist(), s.also(f), f.first()
	if len(g.Vehicles) <= existAtMost {
		for _, b := range g.Vehicles {
			p.Vehicles = append(p.Vehicles, has.where(b))
		}
	}
	p.Questions, p.Fixed, p.Idle = s.questions(f)
	p.Rules = s.rules(f)
	for _, a := range g.Answers {
		if exists(a) {
			p.Places = append(p.Places, s.place(f, a, len(p.Places)+1, p.Rules))
		}
	}
	p.Begin = p.begin()
	if p.Complaints, p.Inspections = s.complaints(f, p.Places), s.inspections(f); len(p.Complaints)+len(p.Inspections) > 0 {
		p.Reads = append(p.Reads, "complaint.js") // before the finder, so that nothing moves once that has laid out its answer
	}
	p.Plan = newPlan(p.Places)
	f.lacks.platform(p)
	return p
}

// platformDescription says what a guide is about in one line.
func (s *site) platformDescription(pl *model.Platform) string {
	words := s.tongue.Say("Which part belongs where on %s.", pl.Name)
	if years := s.yearWords(pl.Years); years != "" {
		words = s.tongue.Say("Which part belongs where on %s, chassis model years %s.", pl.Name, years)
	}
	return words + " " + s.tr(pl.Summary)
}

// exists tells whether any vehicle of the platform has the position; one that was
// too irregular to be counted is taken to exist.
func exists(a *decide.Answer) bool {
	return !a.Exact || a.Configurations != nil && a.Configurations.Sign() > 0
}

func (s *site) place(f *finder, a *decide.Answer, number int, rules []rule) place {
	pos, g := a.Position, f.guide
	here := func(p *model.Position) link { return s.placeLink(g, p) }
	p := place{
		Number: number, Name: pos.Name, Anchor: s.places[pos], Summary: s.tr(pos.Summary), Picture: s.image(pos.Picture, seenOn(s.tr(pos.Name), s.tr(pos.Summary))),
		Axle: pos.Axle, Side: pos.Side, At: listed(s.axleWords(pos.Axle), s.sideWords(pos.Side)), Quantity: s.quantityWords(a.Cases),
	}
	if pos.Pair != nil {
		p.Pair = here(pos.Pair)
	}
	for _, t := range airLines(pos, g.Platform) {
		if _, ok := f.has.sets[t]; ok {
			p.Lines = append(p.Lines, f.link(t))
		}
	}
	if !a.Exact {
		p.Table.Rows = []row{{Fit: fit{Kind: "unsettled", Whom: s.whom()}}}
		return p
	}
	p.Table = s.table(f, a.Cases, here)
	p.Steps = s.steps(f, a, &p)
	p.Map = newYearMap(f, a, &p.Table)
	p.Cautions = shared(p.Table.Rows)
	s.rule(f, &p, a.Cases, rules)
	return p
}

// placeLink leads to a position on the page of the platform, if it is there.
func (s *site) placeLink(g *decide.Guide, p *model.Position) link {
	l := link{Text: p.Name}
	for _, a := range g.Answers {
		if a.Position == p && exists(a) {
			l.Href = "#" + s.places[p]
		}
	}
	return l
}

func (s *site) table(f *finder, cases []decide.Case, here func(*model.Position) link) table {
	ws := make([]where, len(cases))
	for i := range cases {
		ws[i] = f.has.where(cases[i].Where)
	}
	traits := traitsOf(ws)
	var t table
	switch n := len(traits); {
	case n > columnsAtMost:
		t.Columns = []link{{}}
	default:
		for _, tr := range traits {
			t.Columns = append(t.Columns, f.link(tr))
		}
	}
	for i := range cases {
		r := row{Years: ws[i].Years, Fit: s.fit(&cases[i], here)}
		if len(traits) > columnsAtMost {
			r.Cells = []cell{{Terms: ws[i].Terms}}
		} else {
			r.Cells = s.cells(traits, ws[i].Terms)
		}
		t.Rows = append(t.Rows, r)
	}
	return t
}

func (e *edition) cells(traits []*model.Trait, terms []term) []cell {
	out := make([]cell, len(traits))
	for i, tr := range traits {
		out[i].Label = e.tr(tr.Name)
		for _, t := range terms {
			if t.Trait == tr {
				out[i].Terms = []term{t}
			}
		}
	}
	return out
}

// quantityWords says how many a vehicle takes: `2`, or `1 or 2` where it depends.
func (e *edition) quantityWords(cases []decide.Case) string {
	var counts []int
	for _, c := range cases {
		if c.Quantity > 0 && !slices.Contains(counts, c.Quantity) {
			counts = append(counts, c.Quantity)
		}
	}
	slices.Sort(counts)
	words := make([]string, len(counts))
	for i, n := range counts {
		words[i] = strconv.Itoa(n)
	}
	return e.tongue.Or(words)
}

// airLines lists the traits that say the size of the position's line on a platform.
func airLines(pos *model.Position, pl *model.Platform) []*model.Trait {
	var out []*model.Trait
	for _, r := range pos.Rows {
		here := r.When.Platforms == nil || slices.Contains(r.When.Platforms, pl)
		if here && r.AirLine != nil && !slices.Contains(out, r.AirLine) {
			out = append(out, r.AirLine)
		}
	}
	return out
}
