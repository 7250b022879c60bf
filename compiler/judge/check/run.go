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
}

// New gets ready to check a catalogue.
func New(cat *model.Catalogue, o Options) *Run {
	if o.Checks == nil {
		o.Checks = All()
	}
	r := &Run{Options: o, cat: cat, lost: o.Ledger.Lost(o.Owed.Acceptances()), facts: make([]bool, len(cat.Facts))}
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
	Findings []*finding.Finding
	Use      accept.Use // rows that matched a finding
	debts    []debt
	reached  []any // rows that match a vehicle
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

// Told tells the findings of a platform, and counts what follows from others under them.
func (r *Result) Told(report func(*finding.Finding)) {
	for _, f := range r.Findings {
		report(f)
	}
	for _, d := range r.debts {
		d.cause.Owe(d.code, 1)
	}
}

// Whole runs the checks of the catalogue as a whole, after all of its platforms.
func (r *Run) Whole(index *decide.Index, platforms []*Result, report func(*finding.Finding)) {
	whole := &Catalogue{Catalogue: r.cat, owed: r.Owed, Reached: map[any]bool{}, RuledOut: map[any][]*model.Break{}, Met: map[*limits.Subject]bool{}, Exists: map[*model.Platform]bool{}, limits: r.limits, report: report}
	for _, p := range r.cat.Platforms {
		whole.Exists[p] = index.HasVehicles(p)
	}
	for _, p := range platforms {
		for _, row := range p.reached {
			whole.Reached[row] = true
		}
		for _, r := range p.ruledOut {
			whole.RuledOut[r.row] = append(whole.RuledOut[r.row], r.by...)
		}
		maps.Copy(whole.Met, p.met)
	}
	if r.requires(Needed) {
		whole.Needed = stay(platforms, r.cat.Fitments, whole.mayBeIdle)
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
	limits   *limits.Index
	owed     *owed.Ledger
	report   func(*finding.Finding)
}

// Report tells a finding that is not about certain vehicles.
func (c *Catalogue) Report(f *finding.Finding) { c.report(f) }
