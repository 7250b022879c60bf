package check

import (
	"maps"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/judge/limits"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/sheets/cell"
)

// Options of a run.
type Options struct {
	Ledger *accept.Rows // what somebody has accepted
	Owed   *owed.Ledger // what was set aside; nil: nothing
	// Checks that run, in their order; nil for all.
	Checks []*Check
	// Brief leaves out how many vehicles there are, of findings, and which.
	Brief bool
}

// Run runs checks over a catalogue: On each of its platforms, each of which may be looked
// at by another goroutine, and then on the Whole.
type Run struct {
	Options
	cat     *model.Catalogue
	lost    *accept.Lost
	grounds [grounds]bool
	limits  *limits.Index
	facts   []bool // facts that a limit uses
	misfits misfits
	mirror  *decide.Mirror
	either  either
	all     gathered
}

// New gets ready to check a catalogue.
func New(cat *model.Catalogue, o Options) *Run {
	if o.Checks == nil {
		o.Checks = All()
	}
	r := &Run{Options: o, cat: cat, lost: o.Ledger.Lost(o.Owed.Acceptances()), facts: make([]bool, len(cat.Facts)),
		all: newGathered()}
	for _, c := range o.Checks {
		for _, g := range c.Requires {
			r.grounds[g] = true
		}
	}
	if r.requires(Limits, Met) {
		r.limits = limits.New(cat)
	}
	if r.requires(Facts) {
		r.facts = limits.Needed(cat)
	}
	if r.requires(Misfits) {
		r.misfits = newMisfits(cat)
	}
	if r.requires(Sides) {
		r.mirror, r.either = decide.NewMirror(cat), newEither(cat)
	}
	return r
}

// Fresh is a run that is as ready, and to which nothing has been told.
func (r *Run) Fresh() *Run {
	out := *r
	out.all = newGathered()
	return &out
}

// requires tells whether a check that runs requires any of some grounds.
func (r *Run) requires(any ...Ground) bool {
	for _, g := range any {
		if r.grounds[g] {
			return true
		}
	}
	return false
}

// Result is what a run found on one platform.
type Result struct {
	findings []*finding.Finding
	use      accept.Use // rows that matched a finding
	debts    []debt
	reached  []any // rows that match a vehicle
	placed   []any // rows of Complaints and Inspections that match one with their position
	ruledOut []ruledOut
	met      map[*limits.Subject]bool // limits that an offered part calls for
	needs    needs
}

// meet notes that a limit is called for.
func (r *Result) meet(s *limits.Subject) {
	if r.met == nil {
		r.met = map[*limits.Subject]bool{}
	}
	r.met[s] = true
}

// ruledOut is a row that matches vehicles of a platform which Vehicles lists, and none that exists,
// because of Breaks rows.
type ruledOut struct {
	row any
	by  []*model.Break
}

// gathered is what the checks of the catalogue as a whole need to know of its platforms.
type gathered struct {
	reached  map[any]bool
	placed   map[any]bool
	ruledOut map[any][]*model.Break
	met      map[*limits.Subject]bool
	needs    allNeeds
}

func newGathered() gathered {
	return gathered{reached: map[any]bool{}, placed: map[any]bool{}, ruledOut: map[any][]*model.Break{}, met: map[*limits.Subject]bool{}}
}

// Tell tells the findings of a platform, counts what follows from others under them, adds the
// rows that matched a finding to those of other platforms, and gathers what Whole needs. It is
// called for one platform after another, in their order.
func (r *Run) Tell(p *Result, report func(*finding.Finding), use accept.Use) {
	for _, f := range p.findings {
		report(f)
	}
	for _, d := range p.debts {
		d.cause.Owe(d.code, 1)
	}
	for a := range p.use {
		use[a] = true
	}
	for _, row := range p.reached {
		r.all.reached[row] = true
	}
	for _, row := range p.placed {
		r.all.placed[row] = true
	}
	for _, out := range p.ruledOut {
		r.all.ruledOut[out.row] = append(r.all.ruledOut[out.row], out.by...)
	}
	maps.Copy(r.all.met, p.met)
	r.all.needs.add(&p.needs)
}

// Whole runs the checks of the catalogue as a whole, after all of its platforms are told.
func (r *Run) Whole(index *decide.Index, report func(*finding.Finding)) {
	whole := &Catalogue{Catalogue: r.cat, owed: r.Owed, Reached: r.all.reached, placed: r.all.placed, RuledOut: r.all.ruledOut, Met: r.all.met, Exists: map[*model.Platform]bool{}, limits: r.limits, report: report}
	for _, p := range r.cat.Platforms {
		whole.Exists[p] = index.HasVehicles(p)
	}
	if r.requires(Needed) {
		whole.Needed = r.all.needs.stay(r.cat.Fitments, whole.mayBeIdle)
	}
	for _, c := range r.Checks {
		if c.Catalogue != nil {
			c.Catalogue(whole)
		}
	}
}

// Catalogue is what a catalogue check sees.
type Catalogue struct {
	*model.Catalogue
	Reached  map[any]bool             // rows that match a vehicle that exists, by pointer
	RuledOut map[any][]*model.Break   // Breaks rows without which a row would match a vehicle
	Met      map[*limits.Subject]bool // limits that an offered part calls for
	Exists   map[*model.Platform]bool // platforms that a Vehicles row is about
	Needed   *cell.Set                // fitment cells without which something would not be said
	placed   map[any]bool             // rows that match a vehicle with their position
	limits   *limits.Index
	owed     *owed.Ledger
	report   func(*finding.Finding)
}

// Report tells a finding that is not about certain vehicles.
func (c *Catalogue) Report(f *finding.Finding) { c.report(f) }
