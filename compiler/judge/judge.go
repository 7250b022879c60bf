// Package judge works out what is said of every vehicle and what is wrong with it, platform
// by platform: what is decided there, what the checks find, what to ask about a vehicle, and
// the guide that comes of it.
package judge

import (
	"context"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/check"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/compiler/parallel"
	"ferrule/compiler/space"
)

// Options of a run.
type Options struct {
	Ledger  *accept.Rows // what somebody has accepted
	Owed    *owed.Ledger // what was set aside; nil: nothing
	Use     accept.Use   // filled in: rows that matched a finding
	Workers int          // 0: as many as there are processors
	Budget  int          // nodes per platform; 0: the usual number
	// Checks that run, in their order; nil for all.
	Checks []*check.Check
	// Cases asks for the cases of each answer, which only guides need.
	Cases bool
	// Within looks at the vehicles that meet it only, as if no others existed, and not at
	// the catalogue as a whole; nil for all.
	Within *model.When
	// Unsettled asks for what must not be relied on, which only comparing needs.
	Unsettled bool
	// Recall is where what is said of a platform may be known from before; nil: nowhere.
	Recall *Recall
	// Brief leaves out how many vehicles there are, of findings and of answers, and which.
	Brief bool
}

// Platforms judges every platform, then the catalogue as a whole. Findings are told in the
// order of the platforms, whatever the number of workers. The error is the context's.
func Platforms(ctx context.Context, cat *model.Catalogue, o Options, report func(*finding.Finding)) ([]*decide.Guide, error) {
	index, platforms := decide.NewIndex(cat), cat.Platforms
	if o.Within != nil {
		index, platforms = index.Within(o.Within), o.Within.On(cat)
	}
	checks := check.New(cat, check.Options{Ledger: o.Ledger, Owed: o.Owed, Checks: o.Checks, Brief: o.Brief})
	recall := o.recaller(index, checks, cat)
	guides, found, reused := make([]*decide.Guide, len(platforms)), make([]*check.Result, len(platforms)), make([]bool, len(platforms))
	workers := parallel.Workers(o.Workers)
	arenas := make([]*space.Space, workers)
	parallel.Each(len(platforms), workers, func(worker, i int) {
		if ctx.Err() != nil {
			return
		}
		if guides[i], found[i], reused[i] = recall.again(platforms[i]); reused[i] {
			return
		}
		w := way{options: o, checks: checks}
		arenas[worker] = w.platform(index, platforms[i], arenas[worker])
		guides[i], found[i] = w.guide, w.found.Result()
	})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	recall.keep(guides, found, reused)
	for _, f := range found {
		f.Told(report)
		for a := range f.Use {
			o.Use[a] = true
		}
	}
	if o.Within == nil {
		checks.Whole(index, found, report)
	}
	return guides, nil
}

// Guide works out the guide of one platform, with its cases. Nothing is told.
func Guide(cat *model.Catalogue, p *model.Platform, o Options) *decide.Guide {
	o.Cases = true
	w := way{options: o, checks: check.New(cat, check.Options{Ledger: o.Ledger, Owed: o.Owed, Checks: o.Checks, Brief: o.Brief})}
	w.platform(decide.NewIndex(cat), p, nil)
	return w.guide
}
