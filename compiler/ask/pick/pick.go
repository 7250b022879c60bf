// Package pick answers what belongs on one vehicle, or on the few that fit what is
// known of it, and why.
//
// A Lookup reads the question in the words of the sheets. The answer comes from the same
// decisions and checks as guides and findings, taken over the vehicles asked about as
// if no others existed, so it never differs from what is published. What was not told
// of the vehicle is no error: the answer says what is certain without it, and what it
// would change.
package pick

import (
	"context"
	"fmt"
	"math/big"

	"ferrule/compiler/bind"
	"ferrule/compiler/finding"
	"ferrule/compiler/judge"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Lookup answers questions about one catalogue, one at a time.
type Lookup struct {
	cat   *model.Catalogue
	words *bind.Words
	index *decide.Index
	arena *space.Space
}

// NewLookup goes through the catalogue once.
func NewLookup(cat *model.Catalogue) *Lookup {
	return &Lookup{cat: cat, words: bind.Outside(cat), index: decide.NewIndex(cat)}
}

// List is the answer: the positions of the vehicles asked about, as declared, without
// those that none of them has.
type List struct {
	Query          *Query
	Configurations *big.Int // 0: no such vehicle exists, and only Near, Listed and Unbuilt are filled
	OnTheRoad      *big.Rat
	So             model.Box // what follows for these vehicles from what was told, to be checked
	Positions      []Position
	Open           []Open // what was not told and differs among the vehicles: what takes the least to see first, then the year, then traits as declared
	Order          []Line
	Near           []Near
	Listed         bool      // of vehicles that do not exist: Vehicles rows hold such, and Breaks rows take them away
	Unbuilt        []Unbuilt // these rows; none where that is too irregular to be told
	Taken          []Taken   // the stretches of numbers and dates that were told, where ranges decide

	Complaint   *Complaint             // nil: none was asked about
	Inspections []decide.InspectionUse // what to look at on these vehicles first, the gravest first

	yearTell   []model.Tell
	complaints []decide.ComplaintUse
}

// Position is what is known of one place.
type Position struct {
	Position *model.Position
	Exact    bool           // false: too irregular to be worked out, and there are no Ways
	Ways     []Way          // one is certain; of several the open traits decide
	Depends  []*model.Trait // that settle which way it is, no fewer of them would; nil stands for the model year
}

// Way is one thing that may be known of a place.
type Way struct {
	Missing bool // the position does not exist on these vehicles; Case says nothing
	Case    decide.Case
	Where   []model.Box // which of the vehicles asked about; no box twice
	// Findings are what checks say against the parts that are offered here.
	Findings []*finding.Finding
	Care     []Care
}

// Care is a Compatibility row that asks for care with a part that is offered.
type Care struct {
	*model.Rule
	Where model.Box // which of the vehicles of the way; no restriction: all
}

// Settled tells whether parts may be named.
func (w *Way) Settled() bool { return !w.Case.Withheld() && w.Case.Outcome != model.Conflict }

// Certain gives what is known for sure; nil where it depends on what was not told.
func (p *Position) Certain() *Way {
	if !p.Exact || len(p.Ways) != 1 {
		return nil
	}
	return &p.Ways[0]
}

// First gives the first choice where it is certain: all vehicles asked about have the
// position, and each way is settled and begins with the same parts in the same quantities,
// whatever it says besides. It is nil where nothing is ordered; false says that it depends
// on what was not told, or is not settled.
func (p *Position) First() (model.Alternative, bool) {
	if !p.Exact || len(p.Ways) == 0 {
		return nil, false
	}
	first := &p.Ways[0]
	for i := range p.Ways {
		if w := &p.Ways[i]; !w.Settled() || len(p.Ways) > 1 && !w.takes(first) {
			return nil, false
		}
	}
	return first.first(), true
}

// takes tells whether two ways order the same, for the same reason.
func (w *Way) takes(o *Way) bool {
	key := func(w *Way) string {
		return (&model.Fits{Outcome: w.Case.Outcome, With: w.Case.With, Alternatives: []model.Alternative{w.first()}}).Key(0)
	}
	return !w.Missing && !o.Missing && key(w) == key(o)
}

// first gives the first choice of a way, nil where no part is named.
func (w *Way) first() model.Alternative {
	if len(w.Case.Alternatives) == 0 {
		return nil
	}
	return w.Case.Alternatives[0]
}

// Open is something that was not told: a trait, or the model year where Trait is nil.
type Open struct {
	Trait     *model.Trait // nil is the model year
	Values    model.Box    // what it may be
	Positions []Dependent
}

// Dependent is a position on which an open trait has a say.
type Dependent struct {
	Position *model.Position
	Ways     int // all that may be there, whichever trait decides
}

// Line is how many of a part the positions need whose first choice is certain.
type Line struct {
	Part     *model.Part
	Quantity int
}

// List works out the pick list of a query. The error is the context's, or a sentence
// for the user.
func (d *Lookup) List(ctx context.Context, q *Query) (*List, error) {
	so := d.so(q)
	p, err := d.platform(q)
	if err != nil {
		return nil, err
	}
	l := &List{Query: q, Configurations: p.Count(p.All), OnTheRoad: p.Road(p.All), So: so, Taken: d.taken(q), yearTell: d.cat.YearTell}
	if p.All == space.Empty {
		return l, d.missing(l, q)
	}
	g, findings, err := run(ctx, d.cat.Of(q.Platform), &q.When)
	if err != nil {
		return nil, err
	}
	v := &vehicles{p, findings}
	for _, a := range g.Answers {
		if pos, there := v.position(a); there {
			l.Positions = append(l.Positions, pos)
		}
	}
	l.Open = v.open(l.Positions)
	l.complaints, l.Inspections = g.Complaints, g.Inspections
	l.Order = order(l.Positions)
	return l, nil
}

// platform makes the space of the vehicles asked about.
func (d *Lookup) platform(q *Query) (*decide.Platform, error) {
	p, err := decide.NewPlatform(d.index.Within(&q.When), q.Platform, d.arena, 0)
	d.arena = p.Space
	if err != nil {
		return nil, fmt.Errorf("the vehicles of %s are too irregular to be worked out; tell more of the vehicle", q.Platform.Name)
	}
	return p, nil
}

// run decides and checks some vehicles of one platform.
func run(ctx context.Context, cat *model.Catalogue, within *model.When) (*decide.Guide, []*finding.Finding, error) {
	var findings []*finding.Finding
	guides, err := judge.Platforms(ctx, cat, judge.Options{
		Ledger: accept.New(&model.Catalogue{}, ""), // what somebody accepted holds against a part all the same
		Use:    accept.Use{}, Workers: 1, Cases: true, Within: within,
	}, func(f *finding.Finding) { findings = append(findings, f) })
	if err != nil {
		return nil, nil, err
	}
	return guides[0], findings, nil
}

// order adds up the first choices that are certain.
func order(positions []Position) []Line {
	var lines []Line
	index := map[*model.Part]int{}
	for i := range positions {
		first, _ := positions[i].First()
		for _, item := range first {
			k, known := index[item.Part]
			if !known {
				k = len(lines)
				index[item.Part] = k
				lines = append(lines, Line{Part: item.Part})
			}
			lines[k].Quantity += item.Quantity
		}
	}
	return lines
}
