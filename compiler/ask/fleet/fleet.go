// Package fleet answers for many vehicles at once, as a customer lists them: which parts each
// takes, what to order for all of them, what to ask so that more is known, and what cannot be
// read.
//
// Rows are read first, and those that say the same are one group. Each platform is then worked
// out once (pick.Crowd), and each group is answered from it, as pick would; what is kept of an
// answer are the places of a platform, each way of answering them once. Nothing is ordered for a
// vehicle that does not exist, or for a place that is not settled.
package fleet

import (
	"context"
	"slices"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/judge"
	"ferrule/compiler/model"
	"ferrule/compiler/parallel"
)

// Fleet is the vehicles of a customer with their answers.
type Fleet struct {
	Rows     []Row
	Carried  []string // headings of the columns that are carried along
	Refused  []Refused
	Remarks  []Refused // about rows that are read all the same, and about headings
	Answers  []Answer  // in the order of the first row of each
	Order    []Line    // in the order of Parts
	Cautions []Caution // the gravest first
	Few      []Few     // which few questions settle most vehicles

	cat    *model.Catalogue
	desk   *pick.Lookup
	groups []*group
}

// Row is one row that can be read: a vehicle, or several that are alike.
type Row struct {
	At       At
	Quantity int64
	Carried  []string // by Fleet.Carried
	group    *group
}

// At is where a row stands.
type At struct {
	Sheet string
	Row   int32
}

// Refused is a row that is not taken, or a remark.
type Refused struct {
	At      At
	Says    string // what the row says of the vehicle
	What    string // what is wrong
	Nearest string // what is nearest, or what to write
	Carried []string
}

// group is the rows that say the same of a vehicle.
type group struct {
	told   []pick.Told
	query  *pick.Query
	wrong  []pick.Wrong
	miss   *miss
	places []*Place // nil where no such vehicle exists
	asks   []*Ask
	count  int64 // vehicles
	number int   // of its answer
}

// Places gives what is known of the vehicle of a row, position by position.
func (r *Row) Places() []*Place { return r.group.places }

// Says gives what a row says of its vehicle.
func (r *Row) Says() string { return says(r.group.told) }

// Platform gives the platform of a row's vehicle.
func (r *Row) Platform() *model.Platform { return r.group.query.Platform }

// Settled tells whether nothing about the vehicle is open.
func (r *Row) Settled() bool { return r.group.settled() }

func (g *group) settled() bool {
	for _, p := range g.places {
		if !p.Settled() {
			return false
		}
	}
	return true
}

// New readies a fleet of vehicles of a catalogue; they are read into it.
func New(cat *model.Catalogue) *Fleet { return &Fleet{cat: cat, desk: pick.NewLookup(cat)} }

// Answer answers for all rows that have been read. The error is the context's.
func (f *Fleet) Answer(ctx context.Context) error {
	by := map[*model.Platform][]*group{}
	var on []*model.Platform
	for _, g := range f.groups {
		if g.query != nil {
			by[g.query.Platform] = append(by[g.query.Platform], g)
		}
	}
	for _, p := range f.cat.Platforms {
		if by[p] != nil {
			on = append(on, p)
		}
	}
	if len(on) > 0 {
		if err := f.platforms(ctx, on, by); err != nil {
			return err
		}
	}
	f.gather()
	return nil
}

// platforms answers the groups of each platform, several platforms at once. What is too irregular for
// that is asked one by one.
func (f *Fleet) platforms(ctx context.Context, on []*model.Platform, by map[*model.Platform][]*group) error {
	grounds := judge.NewGrounds(f.cat)
	alone := make([][]*group, len(on))
	parallel.Each(len(on), parallel.Workers(0), func(_, i int) {
		if ctx.Err() == nil {
			alone[i] = f.answer(ctx, grounds, on[i], by[on[i]])
		}
	})
	for _, g := range slices.Concat(alone...) {
		if ctx.Err() != nil {
			break
		}
		l, err := f.desk.List(ctx, g.query)
		newTaker(f.cat, g.query.Platform).take(g, l, err, nil)
	}
	return ctx.Err()
}

// answer answers the groups of one platform; it gives those that must be asked about one by one.
func (f *Fleet) answer(ctx context.Context, grounds *judge.Grounds, p *model.Platform, groups []*group) (alone []*group) {
	ground, ok := grounds.Of(ctx, p)
	if !ok {
		return groups
	}
	crowd := f.desk.NewCrowd(ground)
	if crowd == nil {
		return groups
	}
	t := newTaker(f.cat, p)
	for _, one := range groups {
		l, ok := crowd.List(one.query)
		if !ok || l.Missing() && onLine(one.query) {
			alone = append(alone, one)
			continue
		}
		t.take(one, l, nil, crowd)
	}
	return alone
}

// onLine tells whether a number or a date was told: what is nearest to a vehicle that does not exist
// is told in these, which the platform as a whole does not know.
func onLine(q *pick.Query) bool {
	for _, t := range q.When.Traits {
		if t.Line != nil {
			return true
		}
	}
	return false
}
