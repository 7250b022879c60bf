// Package gaps says where nothing is listed yet, by how many vehicles wait for it, and
// what a further fitment row would cover before anyone writes it.
package gaps

import (
	"cmp"
	"context"
	"math/big"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Options of Rank; the zero value is all that is required or wanted.
type Options struct {
	Platform *model.Platform // nil: all
	Position *model.Position // nil: all
	Optional bool            // positions that need not be filled as well
	Today    string          // ISO date that acceptances are read on
}

// Amount is an exact number of configurations, with their share on the road.
type Amount struct {
	Configurations *big.Int
	OnTheRoad      *big.Rat
}

// Nothing is no configuration, to be added to.
func Nothing() Amount { return Amount{new(big.Int), new(big.Rat)} }

func amount(p *decide.Platform, r space.Region) Amount { return Amount{p.Count(r), p.Road(r)} }

// Add adds another amount to a.
func (a Amount) Add(b Amount) {
	a.Configurations.Add(a.Configurations, b.Configurations)
	a.OnTheRoad.Add(a.OnTheRoad, b.OnTheRoad)
}

// Empty tells whether it is no configuration.
func (a Amount) Empty() bool { return a.Configurations.Sign() == 0 }

// compare puts more vehicles on the road first, then more configurations.
func (a Amount) compare(b Amount) int {
	return cmp.Or(b.OnTheRoad.Cmp(a.OnTheRoad), b.Configurations.Cmp(a.Configurations))
}

// Ranking is all gaps, the position for which most vehicles wait first.
type Ranking struct {
	Amount
	Accepted  Amount // gaps that someone accepted, which are counted nowhere else
	Positions []Position
}

// Position is the gaps of one position, the platform with most of them first.
type Position struct {
	Amount
	Position  *model.Position
	Platforms []Platform
}

// Platform is the gap of a position on one platform.
type Platform struct {
	Amount
	Platform *model.Platform
	Exact    bool           // false: too irregular, with no counts and at best an example
	Example  *model.Example // the first such vehicle
	Pieces   []Piece
	Rest     *big.Int // configurations outside all pieces; nil for none
}

// Piece is a box of the gap. It counts what no piece before it holds, so that pieces add
// up; the one with most of what is left comes first.
type Piece struct {
	Amount
	Where model.Box
}

// Rank finds all gaps. The error is the context's.
func Rank(ctx context.Context, cat *model.Catalogue, o Options) (*Ranking, error) {
	r := &ranker{cat: cat, options: o, index: decide.NewIndex(cat), ledger: accept.New(cat, o.Today),
		out: &Ranking{Amount: Nothing(), Accepted: Nothing()}, at: map[*model.Position]*Position{}}
	var arena *space.Space
	for _, p := range cat.Platforms {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if o.Platform == nil || o.Platform == p {
			arena = r.platform(p, arena)
		}
	}
	r.sort()
	return r.out, nil
}

type ranker struct {
	cat     *model.Catalogue
	options Options
	index   *decide.Index
	ledger  *accept.Rows
	out     *Ranking
	at      map[*model.Position]*Position
}

func (r *ranker) platform(m *model.Platform, arena *space.Space) *space.Space {
	p, err := decide.NewPlatform(r.index, m, arena, 0)
	for _, pos := range r.cat.Positions {
		if r.options.Position != nil && r.options.Position != pos ||
			!r.options.Optional && pos.Coverage == model.Optional {
			continue
		}
		if err != nil {
			r.add(pos, Platform{Amount: Nothing(), Platform: m})
			continue
		}
		r.place(p, pos)
	}
	return p.Space
}

// place finds the gap of one position, and forgets its regions afterwards.
func (r *ranker) place(p *decide.Platform, pos *model.Position) {
	defer p.Release(p.Mark())
	var out Platform
	var place *decide.Mount
	accepted := Nothing()
	err := p.Try(func() {
		place = decide.Ground(p, pos)
		out, accepted = r.gap(place)
	})
	if err != nil {
		out, accepted = Platform{Amount: Nothing(), Platform: p.Model}, Nothing()
		if place != nil {
			if c, _ := p.Outside(place.Exists, boxes(place)); c != nil {
				out.Example = p.ExampleOf(c)
			}
		}
	}
	r.out.Accepted.Add(accepted)
	if !out.Exact || !out.Empty() {
		r.add(pos, out)
	}
}

func boxes(place *decide.Mount) []space.Box {
	var out []space.Box
	for _, l := range place.Levels {
		for _, c := range l.Cells {
			out = append(out, c.Box)
		}
	}
	return out
}

// gap works out what is open, and how much someone accepted. It runs inside Try.
func (r *ranker) gap(place *decide.Mount) (out Platform, accepted Amount) {
	p := place.Platform
	gap := p.Minus(place.Exists, p.UnionBoxes(boxes(place)))
	shares, open := r.ledger.Split(p, &finding.Finding{Code: finding.CoverageGap, Position: place.Position.Name}, gap, accept.Use{})
	m := place.Mentioned()
	accepted = Nothing()
	for _, s := range shares {
		accepted.Add(amount(p, s.Region))
		m.Box(p.Bounds(&s.Row.When))
	}
	out = Platform{Amount: amount(p, open), Platform: p.Model, Exact: true, Example: p.Example(open)}
	if err := p.Try(func() { out.Pieces, out.Rest = pieces(p, open, m) }); err != nil {
		out.Pieces, out.Rest = nil, p.Count(open) // the count stands; no box does
	}
	return out, accepted
}

func (r *ranker) add(pos *model.Position, p Platform) {
	at := r.at[pos]
	if at == nil {
		at = &Position{Amount: Nothing(), Position: pos}
		r.at[pos] = at
	}
	at.Platforms = append(at.Platforms, p)
	at.Add(p.Amount)
	r.out.Add(p.Amount)
}

// sort ranks positions and their platforms; what is equal stays as declared.
func (r *ranker) sort() {
	for _, pos := range r.cat.Positions {
		if at := r.at[pos]; at != nil {
			slices.SortStableFunc(at.Platforms, func(a, b Platform) int { return a.compare(b.Amount) })
			r.out.Positions = append(r.out.Positions, *at)
		}
	}
	slices.SortStableFunc(r.out.Positions, func(a, b Position) int { return a.compare(b.Amount) })
}
