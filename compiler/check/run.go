package check

import (
	"context"
	"fmt"
	"math/big"

	"ferrule/compiler/accept"
	"ferrule/compiler/decide"
	"ferrule/compiler/finding"
	"ferrule/compiler/identify"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/compiler/parallel"
	"ferrule/compiler/space"
)

// maxBoxes is how many boxes of a finding's vehicles are listed.
const maxBoxes = 1000

// tooIrregular is told by the run itself, not by a check.
var tooIrregular = finding.Kind{Code: "too-irregular", Severity: "error",
	Summary: "a set of vehicles is too irregular to be worked out exactly",
	Doc:     "Every answer is exact or is not given. Where the rows of one position cut the vehicles into so many unlike pieces that the compiler's budget is used up, it says so and gives one vehicle as an example, and never guesses. The budget is counted in pieces, not in seconds, so the same workbooks always give the same answer.",
	Before:  "Fitment, hundreds of rows that each name other values of many traits",
	After:   "Fitment, rows that name the few traits on which the part depends"}

// Options of a run.
type Options struct {
	Ledger  *accept.Ledger
	Owed    *owed.Ledger // what was set aside; nil: nothing
	Use     accept.Use   // filled in: rows that matched a finding
	Workers int          // 0: as many as there are processors
	Budget  int          // nodes per platform; 0: the usual number
	// Cases asks for the cases of each answer, which only guides need.
	Cases bool
	// Within looks at the vehicles that meet it only, as if no others existed, and not at
	// the catalogue as a whole; nil for all.
	Within *model.When
	// Unsettled asks for what must not be relied on, which only comparing needs.
	Unsettled bool
	// Brief leaves out how many vehicles there are, of findings and of answers, and which.
	Brief bool
}

// Run decides and checks every platform, then the catalogue as a whole. Findings are
// told in the order of the platforms, whatever the number of workers. The error is
// the context's.
func Run(ctx context.Context, cat *model.Catalogue, o Options, report func(*finding.Finding)) ([]*decide.Guide, error) {
	index, limits, needed, misfits := decide.NewIndex(cat), newLimits(cat), neededFacts(cat), newMisfits(cat)
	mirror, either := decide.NewMirror(cat), newEither(cat)
	platforms := cat.Platforms
	if o.Within != nil {
		index, platforms = index.Within(o.Within), o.Within.On(cat)
	}
	runs, lost := make([]*run, len(platforms)), o.Ledger.Lost(o.Owed.Acceptances())
	workers := parallel.Workers(o.Workers)
	arenas := make([]*space.Space, workers)
	parallel.Each(len(runs), workers, func(worker, i int) {
		if ctx.Err() != nil {
			return
		}
		runs[i] = &run{ledger: o.Ledger, owed: o.Owed, lost: lost, budget: o.Budget, cases: o.Cases, unsettled: o.Unsettled, brief: o.Brief, use: accept.Use{},
			checks: All(), limits: limits, needed: needed, misfits: misfits, toldMisfits: map[*misplaced]bool{}, mirror: mirror, either: either}
		arenas[worker] = runs[i].platform(index, platforms[i], arenas[worker])
	})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	whole := &Catalogue{Catalogue: cat, owed: o.Owed, Reached: map[any]bool{}, Exists: map[*model.Platform]bool{},
		limits: limits, report: report}
	guides := make([]*decide.Guide, len(runs))
	var all needs
	for i, r := range runs {
		guides[i] = r.guide
		whole.Exists[platforms[i]] = index.HasVehicles(platforms[i])
		for _, row := range r.reached {
			whole.Reached[row] = true
		}
		all.add(&r.needs)
		for a := range r.use {
			o.Use[a] = true
		}
		for _, f := range r.findings {
			report(f)
		}
		for _, d := range r.debts {
			d.cause.Owe(d.code, 1)
		}
	}
	if o.Within != nil {
		return guides, nil
	}
	whole.Needed = all.stay(cat.Fitments, whole.mayBeIdle)
	for _, c := range All() {
		if c.Catalogue != nil {
			c.Catalogue(whole)
		}
	}
	return guides, nil
}

// run is the work on one platform.
type run struct {
	ledger *accept.Ledger
	owed   *owed.Ledger
	lost   *accept.Lost
	debts  []debt
	use    accept.Use
	checks []*Check
	budget int

	cases, unsettled, brief bool

	p        *decide.Platform
	guide    *decide.Guide
	findings []*finding.Finding
	reached  []any
	company  company
	needs    needs
	limits   *limits
	needed   []bool // facts that a limit uses
	facts    *factGround
	walker   walker
	identify *identify.Platform

	misfits     misfits
	toldMisfits map[*misplaced]bool

	mirror *decide.Mirror
	either either
}

// platform works on a platform in an arena, nil for a new one, and gives the arena
// back. What it keeps is in the words of the catalogue.
func (r *run) platform(index *decide.Index, m *model.Platform, arena *space.Space) *space.Space {
	p, err := decide.NewPlatform(index, m, arena, r.budget)
	r.p = p
	defer func() { r.p, r.company, r.facts, r.identify = nil, nil, nil, nil }()
	r.guide = &decide.Guide{Platform: m, Configurations: new(big.Int), OnTheRoad: new(big.Rat)}
	if err != nil {
		r.irregular("", "the vehicles of "+m.Name+" that exist", nil)
		if r.cases {
			r.guide.Vehicles = p.Listed()
		}
		for _, pos := range p.Cat.Positions {
			r.guide.Answers = append(r.guide.Answers, decide.NoAnswer(pos))
			r.needs.keep(p.Cells(pos))
		}
		return p.Space
	}
	r.guide.Configurations, r.guide.OnTheRoad = p.Count(p.All), p.Road(p.All)
	r.guide.Traits = p.Uses()
	if r.cases {
		r.guide.Vehicles = p.Existing()
	}
	p.Reached(func(row any) { r.reached = append(r.reached, row) })
	r.wholePlatform()
	if r.cases {
		r.identify = identify.On(p)
	}
	for _, pos := range p.Cat.Positions {
		r.guide.Answers = append(r.guide.Answers, r.position(pos))
	}
	if r.cases {
		r.guide.Finder = r.identify.Whole(r.guide.Answers)
	}
	if err := p.Try(func() { r.guide.Rules = p.RuleUses() }); err != nil {
		r.irregular("", "the vehicles of "+m.Name+" that the Compatibility rows name", nil)
	}
	return p.Space
}

// wholePlatform runs the checks of the platform, and gathers what is offered where for
// those of its positions that need it.
func (r *run) wholePlatform() {
	mark := r.p.Mark()
	if err := r.p.Try(func() { r.facts = newFactGround(r.p, r.needed) }); err != nil {
		r.facts = nil
		r.irregular("", "what the Facts sheets say of "+r.p.Model.Name, r.p.Example(r.p.All))
	} else if r.facts.sound() {
		r.p.Release(mark) // no region is kept
	}
	pass := &Platform{r.p, r}
	for _, c := range r.checks {
		if c.Platform == nil {
			continue
		}
		if err := r.p.Try(func() { c.Platform(pass) }); err != nil {
			r.irregular("", fmt.Sprintf("where %s holds on %s", c.Kind.Code, r.p.Model.Name), r.p.Example(r.p.All))
		}
	}
	if err := r.p.Try(func() { r.company = newCompany(r.p) }); err != nil {
		r.irregular("", "which parts are offered together on "+r.p.Model.Name, r.p.Example(r.p.All))
	}
}

// position works on one position and forgets its regions afterwards.
func (r *run) position(pos *model.Position) *decide.Answer {
	defer r.p.Release(r.p.Mark())
	var place *decide.Place
	if err := r.p.Try(func() { place = decide.NewPlace(r.p, pos) }); err != nil {
		r.maybeMet(pos)
		r.needs.keep(r.p.Cells(pos))
		if example := r.outside(pos); example != nil {
			r.irregular(pos.Name, "what is said of "+pos.Name+" on "+r.p.Model.Name+" (nothing is said of the vehicle in the example)", example)
		} else {
			r.irregular(pos.Name, "what is said of "+pos.Name+" on "+r.p.Model.Name, r.somewhere(pos))
		}
		return decide.NoAnswer(pos)
	}
	pass := &Position{Place: place, run: r}
	for _, c := range r.checks {
		if c.Position == nil {
			continue
		}
		if err := r.p.Try(func() { c.Position(pass) }); err != nil {
			r.irregular(pos.Name, fmt.Sprintf("where %s holds at %s on %s", c.Kind.Code, pos.Name, r.p.Model.Name), r.somewhere(pos))
		}
	}
	answer := &decide.Answer{Position: pos, Exact: true}
	if !r.brief {
		answer = place.Counts()
	}
	if r.unsettled {
		listed := false
		err := r.p.Try(func() { answer.Unsettled, listed = place.Unsettled() })
		answer.Unlisted = err != nil || !listed
	}
	if r.unsettled || r.cases {
		r.against(place, answer)
	}
	if !r.cases {
		return answer
	}
	var classes []space.Region
	if err := r.p.Try(func() { answer.Cases, classes = place.Cases() }); err != nil {
		r.irregular(pos.Name, "the cases of "+pos.Name+" on "+r.p.Model.Name, r.somewhere(pos))
		answer.Exact = false
		return answer
	}
	answer.Classes = len(classes) - 1
	answer.Questions = r.identify.Place(classes, place.Mentions())
	return answer
}

// against notes what stands against what is fitted at a place. Where that is too
// irregular to be listed nothing is, and then nothing there can be held accepted.
func (r *run) against(place *decide.Place, answer *decide.Answer) {
	err := r.p.Try(func() { answer.Against, _ = place.Against() })
	if err != nil {
		answer.Against = nil
	}
}

// maybeMet takes every limit that may be about what a position offers for one that is,
// where nobody can tell.
func (r *run) maybeMet(pos *model.Position) {
	for _, c := range r.p.Cells(pos) {
		c.Fits.Parts(func(part *model.Part) {
			for _, s := range r.limits.about(part) {
				if s.Holds(pos) {
					s.meet()
				}
			}
		})
	}
}

// outside gives a vehicle with the position that no fitment cell matches, where one can
// be found without working out the whole; nil where not.
func (r *run) outside(pos *model.Position) (example *model.Example) {
	var place *decide.Place
	if err := r.p.Try(func() { place = decide.Ground(r.p, pos) }); err != nil {
		return nil
	}
	var boxes []space.Box
	for _, level := range place.Levels {
		for _, c := range level.Cells {
			boxes = append(boxes, c.Box)
		}
	}
	if c, _ := r.p.Outside(place.Exists, boxes); c != nil {
		return r.p.ExampleOf(c)
	}
	return nil
}

// somewhere gives a vehicle on which the position exists, without making regions.
func (r *run) somewhere(pos *model.Position) *model.Example {
	for _, row := range pos.Rows {
		if row.When.Dead {
			continue
		}
		if c, ok := r.p.FirstIn(r.p.All, r.p.Bounds(&row.When)); ok {
			return r.p.ExampleOf(c)
		}
	}
	return nil
}

func (r *run) irregular(position, what string, example *model.Example) {
	f := &finding.Finding{Code: tooIrregular.Code, Severity: finding.Error, Platform: r.p.Model.Name, Position: position,
		Message: what + " is too irregular to be worked out exactly",
		Cells:   finding.At(r.p.Model.At),
		Fix:     "name fewer traits in the rows of this position, or split the platform",
		Region:  &finding.Region{Example: example}}
	r.findings = append(r.findings, f)
}

// report tells a finding about a region, in entries: what each Accepted row names,
// and first what nobody has accepted.
func (r *run) report(f finding.Finding, region space.Region, m decide.Mention) {
	if region == space.Empty {
		return
	}
	f.Platform = r.p.Model.Name
	shares, rest := r.ledger.Split(r.p, &f, region, r.use)
	for _, s := range shares {
		m.Box(r.p.Bounds(&s.Row.When))
	}
	causes, rest := r.lost.Split(r.p, &f, rest)
	for _, cause := range causes {
		r.debts = append(r.debts, debt{cause, f.Code})
	}
	if rest != space.Empty {
		r.tell(f, rest, m)
	}
	for _, s := range shares {
		f.Accepted = accept.Mark(s.Row)
		r.tell(f, s.Region, m)
	}
}

func (r *run) tell(f finding.Finding, region space.Region, m decide.Mention) {
	if r.brief {
		f.Region = &finding.Region{Exact: true}
		r.findings = append(r.findings, &f)
		return
	}
	f.Region = &finding.Region{Exact: true, Configurations: r.p.Count(region), OnTheRoad: r.p.Road(region), Example: r.p.Example(region)}
	var boxes []space.Box
	rest := region
	if err := r.p.Try(func() { boxes, rest = r.p.Describe(region, m, maxBoxes) }); err != nil {
		boxes, rest = nil, region // the count stands; no box does
	}
	for _, b := range boxes {
		f.Region.Where = append(f.Region.Where, r.p.Words(b))
	}
	if rest != space.Empty {
		f.Region.Rest = r.p.Count(rest)
	}
	r.findings = append(r.findings, &f)
}
