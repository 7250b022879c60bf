package judge

import (
	"context"

	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/check"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Grounds work out platforms as a whole for who asks about many vehicles of them. They may be used from
// several goroutines at once.
type Grounds struct {
	index  *decide.Index
	checks *check.Run
}

// NewGrounds goes through the catalogue once. What somebody accepted holds against a part all the same.
func NewGrounds(cat *model.Catalogue) *Grounds {
	return &Grounds{decide.NewIndex(cat), check.New(cat, check.Options{Ledger: accept.New(&model.Catalogue{}, ""), Brief: true})}
}

// Ground is one platform with what is said at each position, as regions of its space.
type Ground struct {
	*decide.Platform
	Places []Place
}

// Place is a position of a platform, with all that is known there; no two classes share a vehicle.
type Place struct {
	Position *model.Position
	Classes  []decide.Class
	Mentions decide.Mention // traits that it may depend on
}

// Of works out a platform; false where it, or one of its positions, is too irregular for that. It is
// cut short, and false, where the context ends.
func (g *Grounds) Of(ctx context.Context, m *model.Platform) (*Ground, bool) {
	p, err := decide.NewPlatform(g.index, m, nil, 0)
	if err != nil {
		return nil, false
	}
	w := way{ctx: ctx, checks: g.checks, found: g.checks.On(p)}
	w.checking, w.answering = p.Purse(), p.Purse()
	out := &Ground{Platform: p}
	for _, pos := range p.Cat.Positions {
		place := w.checked(p, pos)
		if ctx.Err() != nil || place == nil {
			return nil, false
		}
		at := Place{Position: pos, Mentions: place.Mentions()}
		p.Pay(w.answering, func() { err = p.Try(func() { at.Classes = place.Classes() }) })
		if err != nil {
			return nil, false
		}
		out.Places = append(out.Places, at)
	}
	return out, true
}
