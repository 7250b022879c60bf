// Package identify works out what to ask about a vehicle, and in which order, until the
// part is known.
//
// For one position that is a tree of questions with the least effort to be expected, or
// a good one where the search for it would take too long; it says which. For all
// positions of a platform together a tree would have an end for every combination of
// parts, which are millions on platforms that people keep. So nothing is built for it:
// whoever wants to know everything walks through the trees of all positions at once,
// and asks what one of them asks next, looking one answer ahead. What is known already
// is not asked, and a branch that no vehicle with the answers given takes is passed
// over. That takes little more than the least effort and is not exact;
// compiler/judge/identify/walk does so in Go, to measure it, and the script of a guide's page
// does so for people.
package identify

import (
	"math/big"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
)

// Platform is what can be asked about the vehicles of one platform.
type Platform struct {
	*decide.Platform
	Asking space.Asking // what may be asked about one position
	heavy  *big.Int     // what a vehicle on the road weighs; nil where none are stated
}

// states bounds the search for the least effort at one position, and ends the size of
// its tree: a longer one is no help to anybody.
const (
	states = 1_000
	ends   = 500
)

// On gets ready to ask about a platform. Only the year, and traits that the catalogue
// says how to tell, can be asked.
func On(p *decide.Platform) *Platform {
	out := &Platform{Platform: p, Asking: space.Asking{States: states, Ends: ends, Shared: &space.Shared{}}}
	out.Asking.Effort = []int{p.Cat.YearEffort(p.Model)}
	for _, t := range p.Cat.Traits {
		effort := 0
		if t.Tells(p.Model) {
			effort = t.EffortOn(p.Model)
		}
		out.Asking.Effort = append(out.Asking.Effort, effort)
	}
	if err := p.Try(out.weigh); err != nil {
		out.heavy, out.Asking.Weights = nil, nil
	}
	return out
}

// weigh makes a vehicle on the road outweigh all configurations, each of which weighs
// one: so the effort is the least for the vehicles on the road, and among ways that
// take as much, for the configurations.
func (p *Platform) weigh() {
	roads := p.Roads()
	unit := big.NewInt(1) // of a vehicle, so that every weight is whole
	for _, r := range roads {
		d := r.Per().Denom()
		unit.Mul(unit, new(big.Int).Div(d, new(big.Int).GCD(nil, nil, unit, d)))
	}
	effort := int64(1)
	for _, e := range p.Asking.Effort {
		effort += int64(e)
	}
	heavy := new(big.Int).Mul(p.Count(p.All), big.NewInt(effort))
	weights := []space.Weight{{Where: p.All, Times: big.NewInt(1)}}
	for _, r := range roads {
		times := new(big.Int).Mul(r.Per().Num(), new(big.Int).Div(unit, r.Per().Denom()))
		if times.Sign() > 0 {
			weights = append(weights, space.Weight{Where: p.Box(r.Box), Times: times.Mul(times, heavy), By: p.Measure()})
		}
	}
	if len(weights) > 1 {
		p.Asking.Weights, p.heavy = weights, heavy
	}
}

// Place gives the questions for one position, whose classes are disjoint and hold
// everything that exists on the platform. Only traits that are mentioned are asked:
// others might tell the same for less, since not everything exists, and nobody would
// see why they are asked.
func (p *Platform) Place(classes []space.Region, mentioned decide.Mention) decide.Questions {
	var out decide.Questions
	asking := p.Asking
	asking.Effort = slices.Clone(asking.Effort)
	for t, in := range mentioned {
		if !in {
			asking.Effort[t] = 0
		}
	}
	// Without an answer from here the table of cases is still there to be read.
	_ = p.Try(func() {
		q := p.Space.Questions(classes, asking)
		if q.Tree == nil {
			return
		}
		out = decide.Questions{Tree: tree(q.Tree), Exact: q.Exact, Expected: p.average(q.Effort, q.Weight), Least: p.average(q.Least, q.Weight)}
	})
	return out
}

// tree puts the questions into what a guide keeps of them.
func tree(t *space.Tree) *decide.Tree {
	out := &decide.Tree{Trait: t.Trait, Classes: t.Classes}
	for _, b := range t.Branches {
		out.Branches = append(out.Branches, decide.Branch{Values: decide.Values(b.Values), Next: tree(b.Next)})
	}
	return out
}

// average is an effort for a vehicle on the road, where those are stated and any of them
// is concerned.
func (p *Platform) average(effort, weight *big.Int) *big.Rat {
	if p.heavy != nil {
		if onRoad := new(big.Int).Div(weight, p.heavy); onRoad.Sign() > 0 {
			return new(big.Rat).SetFrac(new(big.Int).Div(effort, p.heavy), onRoad)
		}
		// No class holds a vehicle on the road, so nothing heavy was counted.
	}
	return new(big.Rat).SetFrac(effort, weight)
}
