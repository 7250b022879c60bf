// Package compare holds two releases of a catalogue against each other: which vehicles
// gained, lost or changed a part, exactly, and which findings are new.
//
// # What is compared
//
// A platform of OLD is held against the platform of NEW of that name; names are the
// same where case and spaces alone differ, and sizes where their magnitude is. On a
// platform both releases are looked at in one space: the years of either, the traits
// that a vehicle of either has, and for each trait the values of both.
//
// A trait that no vehicle of a platform has on one side may have any value there. Where
// NEW says that H7 comes with and without a lift axle, and OLD said nothing of lift
// axles on H7, then what OLD says of a vehicle it says of both kinds: the trait splits
// vehicles, and none of them vanishes. The same holds the other way round for a trait
// that is given up. So a configuration here is a year and a value for every trait of
// either side, and it exists in a release where the vehicle does that is left when the
// traits are forgotten which that release does not use. Where a platform gives up one
// trait and takes up another in the same step, every value of the one is held against
// every value of the other, since nothing says which belong together.
//
// What exists in both releases is compared position by position. Vehicles that only OLD
// has vanish, those that only NEW has appear; nothing is said of their positions, and
// they are counted by the traits of the release that has them.
//
// On a configuration that exists in both, a release says one thing of a position: that
// it is not there, a gap, what is fitted, none, planned, ask, or that cells disagree.
// Fits are the same where fitment cells agree (quantities filled in, the order of `or`
// counts, that of `+` does not) and kits hold the same; notes and reasons make no
// difference. A fit is unsettled where a check has found it wrong, whether or not
// somebody accepted that. Each difference is of exactly one Kind.
//
// # Renames
//
// A name that is gone and one that is new are told as a rename, and everything else is
// compared as if the name had been the same all along, where exactly one pair meets the
// criterion, and otherwise not:
//
//   - trait: both have the same kind and the same values, and on every platform of both
//     releases that has the trait, NEW has all of OLD's vehicles or OLD all of NEW's;
//   - value: on every platform of both releases that has the trait, exactly the vehicles
//     that had the old value have the new one; of several such pairs, those for which
//     every position says the same;
//   - platform: the same vehicles; of several such pairs, those for which every position
//     says the same;
//   - position: on every platform of both releases, the position is there on the same
//     vehicles and the same is said of it, and something is fitted somewhere;
//   - part: OLD's cells and kits offer the old number and NEW's do not, and the other way
//     round for the new one; and NEW's References say that the one is a former number of
//     the other, or its Replaced by names the other alone, or neither release declares
//     both and wherever one was the other is, in every difference that one of them has
//     part in.
//
// A rename never hides a difference: it changes what is compared with what.
package compare

import (
	"context"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/written"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/parallel"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// Release is what is known of one state of a catalogue, from workbooks or from what an
// earlier build wrote.
type Release struct {
	Catalogue *model.Catalogue
	Guides    []*decide.Guide  // one per platform, as declared, with what is unsettled
	Sheets    []*written.Sheet // as they were read; nil where nobody knows
}

// Options of a comparison.
type Options struct {
	Today   string // ISO date that NEW's acceptances are read on
	Workers int    // 0: as many as there are processors; the result is the same
	Budget  int    // nodes per platform; 0: the usual number
	Tight   bool   // regions have Tight, which only what is published needs
}

// Diff is all that differs, in one total order: that of NEW's platforms and positions,
// then of those that only OLD has.
type Diff struct {
	Renames   []Rename
	Splits    []Split
	Fleets    []Fleet
	Changes   []Change
	Losses    []Loss
	Advice    []Advice
	Irregular []Irregular
}

// Empty tells whether the releases say the same of the same vehicles under the same
// names.
func (d *Diff) Empty() bool {
	return len(d.Renames)+len(d.Splits)+len(d.Fleets)+len(d.Changes)+len(d.Losses)+len(d.Advice)+len(d.Irregular) == 0
}

// Split says that the vehicles of a platform have a trait in one release only.
type Split struct {
	Platform string
	Trait    string
	Dropped  bool // OLD has it and NEW does not
}

// Fleet is the vehicles of a platform that exist in one release only: Kind is Appeared
// or Vanished. Whole says that the other release has no such platform at all.
type Fleet struct {
	Kind     Kind
	Platform string
	Whole    bool
	Region   *finding.Region
	Breaks   []cell.Place // the rows of the other release that say of them that they were not built
}

// Change is one difference at a position: what was said and what is said now, with the
// vehicles that exist in both releases. OnTheRoad counts as NEW does.
type Change struct {
	Kind     Kind
	Platform string
	Position string
	Old, New Answer
	Region   *finding.Region
	Accepted *finding.Accepted // somebody accepted in NEW what is found there; nil: nobody
}

// Answer is what one release says.
type Answer struct {
	Exists       bool // false: the position is not there
	Outcome      model.Outcome
	Settled      bool                // of Fitted: no check has found it wrong
	Alternatives []model.Alternative // of Fitted: quantities filled in
	With         *model.Position     // of Fitted: the item there supplies this place
	Cells        []cell.Place        // that say so on these vehicles: at most MaxCells
	More         int                 // cells that are left out
}

// Irregular is what could not be compared: a position, or with "" all of a platform.
type Irregular struct{ Platform, Position string }

// Limits of what is listed.
const (
	MaxCells = 20
	maxBoxes = 1000
)

// Between compares two releases. The error is the context's.
func Between(ctx context.Context, old, new *Release, o Options) (*Diff, error) {
	return until(ctx, func() (*Diff, error) { return between(ctx, old, new, o) })
}

// until gives what do gives, unless the context ends before.
func until[T any](ctx context.Context, do func() (T, error)) (T, error) {
	var out, none T
	var err error
	if stopped := parallel.Until(ctx, func() { out, err = do() }); stopped != nil {
		return none, stopped
	}
	return out, err
}

func between(ctx context.Context, old, new *Release, o Options) (*Diff, error) {
	c := newComparison(old, new, o)
	if err := c.rename(ctx); err != nil {
		return nil, err
	}
	pairs := c.pairs()
	parts := make([]Diff, len(pairs))
	err := c.each(ctx, len(pairs), func(w *worker, i int) { parts[i] = w.platform(pairs[i]) })
	if err != nil {
		return nil, err
	}
	out := &Diff{Renames: c.renames}
	looks, err := c.inspectionLosses(ctx)
	if err != nil {
		return nil, err
	}
	if out.Losses, err = c.losses(ctx, looks); err != nil {
		return nil, err
	}
	out.Advice = c.advice(looks)
	for _, p := range parts {
		out.Splits = append(out.Splits, p.Splits...)
		out.Fleets = append(out.Fleets, p.Fleets...)
		out.Changes = append(out.Changes, p.Changes...)
		out.Irregular = append(out.Irregular, p.Irregular...)
	}
	return out, nil
}

// comparison is what is known of both releases.
type comparison struct {
	Options
	old, new                     *side
	platforms, traits, positions links
	values                       []links           // by index of the new trait; of a trait in both
	parts                        map[string]string // what a number of OLD is called now, both folded
	ledger                       *accept.Rows
	renames                      []Rename
}

// side is one release.
type side struct {
	*Release
	index *decide.Index
	has   [][]bool                      // by platform: the traits that its vehicles have
	found map[string][]*finding.Finding // by platform: findings about certain vehicles that are compared
}

func newSide(r *Release) *side {
	s := &side{Release: r, index: decide.NewIndex(r.Catalogue)}
	for _, p := range r.Catalogue.Platforms {
		s.has = append(s.has, s.index.Traits(p))
	}
	return s
}

func newComparison(old, new *Release, o Options) *comparison {
	c := &comparison{Options: o, old: newSide(old), new: newSide(new), parts: map[string]string{},
		ledger: accept.New(new.Catalogue, o.Today)}
	c.link()
	return c
}

// versions are a platform in both releases; nil where a release does not have it.
type versions struct{ old, new *model.Platform }

// pairs gives all platforms: NEW's as declared, then those that only OLD has.
func (c *comparison) pairs() []versions {
	var out []versions
	for i, p := range c.new.Catalogue.Platforms {
		v := versions{new: p}
		if o := c.platforms.toOld[i]; o >= 0 {
			v.old = c.old.Catalogue.Platforms[o]
		}
		out = append(out, v)
	}
	for i, p := range c.old.Catalogue.Platforms {
		if c.platforms.toNew[i] < 0 {
			out = append(out, versions{old: p})
		}
	}
	return out
}

// both gives the platforms that both releases have.
func (c *comparison) both() []versions {
	var out []versions
	for _, v := range c.pairs() {
		if v.old != nil && v.new != nil {
			out = append(out, v)
		}
	}
	return out
}

// worker works on one platform at a time.
type worker struct {
	*comparison
	arena *space.Space
	keys  [2]map[saying]string // of OLD and of NEW
}

// each calls f for 0 to n-1 on some workers. The error is the context's.
func (c *comparison) each(ctx context.Context, n int, f func(w *worker, i int)) error {
	workers := make([]*worker, parallel.Workers(c.Workers))
	parallel.Each(n, len(workers), func(k, i int) {
		if ctx.Err() != nil {
			return
		}
		if workers[k] == nil {
			workers[k] = &worker{comparison: c, keys: [2]map[saying]string{{}, {}}}
		}
		f(workers[k], i)
	})
	return ctx.Err()
}
