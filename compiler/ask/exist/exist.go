// Package exist says which vehicles exist, in few rows of Vehicles, and looks for fewer rows that
// say the same.
//
// Rows of Vehicles are often a product that somebody multiplied out by hand: three front suspensions
// by two rear ones, each in its years. A Proposal is one row of all that occurs, and rows of Breaks
// that say when each value was built. It is made of cells, and it is given only where these cells,
// read again, leave exactly the vehicles that exist.
package exist

import (
	"context"
	"math/big"

	"ferrule/compiler/bind"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Platform is what exists of one platform.
type Platform struct {
	Platform       *model.Platform
	Vehicles       []*model.Vehicles // the rows that are about it
	Breaks         []*model.Break
	Exact          bool // false: too irregular to be worked out, and what follows is not filled
	Configurations *big.Int
	OnTheRoad      *big.Rat
	Has            []model.TraitSet // the values that occur, of each trait that vehicles have
	Rows           []Row            // everything in a row exists, and all that exists is in one
}

// Row is a box of vehicles that exist. Rows may share vehicles.
type Row struct {
	Where          model.Box // what it restricts
	Configurations *big.Int
	OnTheRoad      *big.Rat
	years          []model.Span
	traits         []model.TraitSet // every trait of the catalogue
}

// Lister goes through the platforms of a catalogue.
type Lister struct {
	cat   *model.Catalogue
	words *bind.Words
	index *decide.Index
	arena *space.Space
}

// NewLister goes through the catalogue once.
func NewLister(cat *model.Catalogue) *Lister {
	return &Lister{cat: cat, words: bind.NewWords(cat), index: decide.NewIndex(cat)}
}

// Platform finds a platform by name.
func (l *Lister) Platform(name string) (*model.Platform, error) { return l.words.Platform(name) }

// List says what exists of platforms; none are all. The error is the context's.
func (l *Lister) List(ctx context.Context, platforms ...*model.Platform) ([]Platform, error) {
	var out []Platform
	err := l.each(ctx, platforms, func(p *decide.Platform, whole bool) {
		one := l.stated(p.Model)
		if whole {
			l.list(p, &one)
		}
		out = append(out, one)
	})
	return out, err
}

// each makes the space of each platform; whole is false for one that is too irregular.
func (l *Lister) each(ctx context.Context, platforms []*model.Platform, f func(p *decide.Platform, whole bool)) error {
	if len(platforms) == 0 {
		platforms = l.cat.Platforms
	}
	for _, m := range platforms {
		if err := ctx.Err(); err != nil {
			return err
		}
		p, err := decide.NewPlatform(l.index, m, l.arena, 0)
		l.arena = p.Space
		f(p, err == nil)
	}
	return nil
}

// stated gives the rows that are about a platform.
func (l *Lister) stated(m *model.Platform) Platform {
	out := Platform{Platform: m}
	for _, v := range l.cat.Vehicles {
		if v.When.Concerns(m) && !v.When.SetAside {
			out.Vehicles = append(out.Vehicles, v)
		}
	}
	for _, b := range l.cat.Breaks {
		if b.When.Concerns(m) && !b.When.SetAside {
			out.Breaks = append(out.Breaks, b)
		}
	}
	return out
}

func (l *Lister) list(p *decide.Platform, out *Platform) {
	out.Exact, out.Configurations, out.OnTheRoad = true, p.Count(p.All), p.Road(p.All)
	for _, t := range p.Cat.Traits {
		if p.Has(t) {
			out.Has = append(out.Has, occurring(p, t))
		}
	}
	if p.All == space.Empty {
		return
	}
	for _, b := range p.Existing() {
		row := Row{Where: b, years: b.Years, traits: everyTrait(p, b)}
		if row.years == nil {
			row.years = p.Model.Made()
		}
		box := p.Bounds(&model.When{Years: &model.Years{Spans: row.years}, Traits: row.traits})
		row.Configurations, row.OnTheRoad = p.CountIn(p.All, box), roadIn(p, box)
		out.Rows = append(out.Rows, row)
	}
}

// roadIn gives how many vehicles of a box are on the road.
func roadIn(p *decide.Platform, box space.Box) *big.Rat {
	sum := new(big.Rat)
	for _, r := range p.Roads() {
		if in, some := r.Box.Intersect(box); some {
			n := new(big.Rat).SetInt(p.Weigh(p.All, in))
			sum.Add(sum, n.Mul(n, r.Per()))
		}
	}
	return sum
}

func occurring(p *decide.Platform, t *model.Trait) model.TraitSet {
	return model.TraitSet{Trait: t, Values: p.Values(p.All, t.Index+1)}
}

// everyTrait gives what a box of existing vehicles holds of each trait.
func everyTrait(p *decide.Platform, b model.Box) []model.TraitSet {
	var out []model.TraitSet
	next := 0
	for _, t := range p.Cat.Traits {
		if next < len(b.Traits) && b.Traits[next].Trait == t {
			out = append(out, b.Traits[next])
			next++
			continue
		}
		out = append(out, occurring(p, t))
	}
	return out
}
