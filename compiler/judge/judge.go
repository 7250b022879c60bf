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
	// Counts asks for how many vehicles there are of each outcome, where no cases are asked for.
	Counts bool
	// Within looks at the vehicles that meet it only, as if no others existed, and not at
	// the catalogue as a whole; nil for all.
	Within *model.When
	// Unsettled asks for what must not be relied on, which only comparing needs.
	Unsettled bool
	// Recall is where what is said of a platform may be known from before; nil: nowhere.
	Recall *Recall
	// Ready is filled in with what Platforms has made ready, for Guide; nil: nobody asks.
	Ready *Ready
	// Guide takes each guide as it is made, with the number of its platform among those looked
	// at, from several goroutines at once; nil: all are held and given back.
	Guide func(i int, g *decide.Guide)
	// Brief leaves out how many vehicles there are, of findings and of answers, and which.
	Brief bool
}

// guided tells whether guides are asked for; findings need none, and they are several times as
// large.
func (o *Options) guided() bool { return o.Cases || o.Unsettled || o.Counts }

// Ready is what is made of a catalogue before any of its platforms is looked at. The zero value holds
// nothing.
type Ready struct {
	index  *decide.Index
	checks *check.Run
}

// Platforms judges every platform, then the catalogue as a whole, and gives the guides of the
// platforms where Cases or Unsettled asks for what is in them and nothing else takes them. Findings are told in the
// order of the platforms, whatever the number of workers. The error is the context's.
func Platforms(ctx context.Context, cat *model.Catalogue, o Options, report func(*finding.Finding)) ([]*decide.Guide, error) {
	index, platforms := decide.NewIndex(cat), cat.Platforms
	if o.Within != nil {
		index, platforms = index.Within(o.Within), o.Within.On(cat)
	}
	checks := check.New(cat, check.Options{Ledger: o.Ledger, Owed: o.Owed, Checks: o.Checks, Brief: o.Brief})
	if o.Ready != nil && o.Within == nil {
		*o.Ready = Ready{index, checks.Fresh()}
	}
	recall := o.recaller(index, checks, cat)
	var guides []*decide.Guide
	if o.guided() && o.Guide == nil {
		guides = make([]*decide.Guide, len(platforms))
		o.Guide = func(i int, g *decide.Guide) { guides[i] = g }
	}
	workers := parallel.Workers(o.Workers)
	arenas := make([]*space.Space, workers)
	tell := teller{checks: checks, report: report, use: o.Use, found: make([]*check.Result, len(platforms))}
	parallel.Each(len(platforms), workers, func(worker, i int) {
		if ctx.Err() != nil {
			return
		}
		if found, known := recall.again(platforms[i]); known {
			tell.done(i, found)
			return
		}
		w := way{ctx: ctx, options: o, checks: checks}
		arenas[worker] = w.platform(index, platforms[i], arenas[worker])
		if o.guided() {
			o.Guide(i, w.guide)
		}
		recall.keep(platforms[i], w.found.Result(), false)
		tell.done(i, w.found.Result())
	})
	if err := ctx.Err(); err != nil {
		recall.forget()
		return nil, err
	}
	if o.Within == nil {
		checks.Whole(index, report)
	}
	return guides, nil
}

// Guide works out the guide of one platform, with its cases. Nothing is told.
func Guide(cat *model.Catalogue, p *model.Platform, o Options) *decide.Guide {
	o.Cases = true
	var ready Ready
	if o.Ready != nil {
		ready = *o.Ready
	}
	if ready.index == nil {
		ready = Ready{decide.NewIndex(cat), check.New(cat, check.Options{Ledger: o.Ledger, Owed: o.Owed, Checks: o.Checks, Brief: o.Brief})}
	}
	w := way{ctx: context.Background(), options: o, checks: ready.checks}
	w.platform(ready.index, p, nil)
	return w.guide
}
