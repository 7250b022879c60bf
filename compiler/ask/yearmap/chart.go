package yearmap

import (
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Chart is which cases of an answer hold in which years on vehicles with which value of a trait.
type Chart struct {
	Trait *model.Trait // nil: one row, since no trait tells more apart
	Years []int        // of the platform, ascending
	Rows  []Lane       // one for each value that occurs
}

// Lane is one value of the trait, or all vehicles.
type Lane struct {
	Value   int // of the trait, Absent included
	Squares []Square
}

// Square is a year and a value: what holds on vehicles that exist with both.
type Square struct {
	Cases []int // by their place in the answer, ascending
	Away  bool  // some have no such place
}

// Nobody tells whether no such vehicle exists.
func (s Square) Nobody() bool { return len(s.Cases) == 0 && !s.Away }

const (
	// mostRows bounds the values of a trait that a chart is drawn by.
	mostRows = 60
	// mostPieces bounds what the vehicles of a position are cut into; one that takes more is not drawn.
	mostPieces = 20_000
)

// Ground is a position of a platform, made ready to be drawn in several ways.
type Ground struct {
	guide  *decide.Guide
	answer *decide.Answer
	pieces []piece
	traits []int         // that cells decide by, in the order of asking
	has    map[int][]set // what the pieces have of a trait, once it was asked for
}

// piece is a box of vehicles that exist, all of one case, or, with the number after the last, all
// without the place.
type piece struct {
	of    int
	years []int
	in    decide.Vehicles
}

type set = decide.Values

// GroundOf takes a position of a guide apart; nil where it is too irregular to have cases or to
// be drawn, or the vehicles are not known.
func GroundOf(g *decide.Guide, a *decide.Answer) *Ground {
	exist := g.Exist()
	if !a.Exact || exist.None() {
		return nil
	}
	out := &Ground{guide: g, answer: a, has: map[int][]set{}}
	away, some := exist, a.Configurations.Cmp(g.Configurations) < 0
	for i := range a.Cases {
		where := a.Cases[i].Where
		out.add(i, exist.Among(where))
		if some {
			away = away.Without(where)
		}
		if len(out.pieces)+len(away.Boxes()) > mostPieces {
			return nil
		}
	}
	if some {
		out.add(len(a.Cases), away)
	}
	for _, trait := range g.Finder.Order {
		if n := g.Occur(trait).Len(); trait > 0 && n > 1 && n <= mostRows && out.decides(trait) {
			out.traits = append(out.traits, trait)
		}
	}
	return out
}

func (g *Ground) add(of int, v decide.Vehicles) {
	for _, b := range v.Boxes() {
		p := piece{of: of, in: b}
		for from, to := range b.Possible(0).Runs() {
			for y := from; y <= to; y++ {
				p.years = append(p.years, y)
			}
		}
		g.pieces = append(g.pieces, p)
	}
}

// decides tells whether a case asks for a trait.
func (g *Ground) decides(trait int) bool {
	return slices.ContainsFunc(g.answer.Cases, func(c decide.Case) bool {
		return slices.ContainsFunc(c.Where.Traits, func(t model.TraitSet) bool { return t.Trait.Index == trait-1 })
	})
}

// values gives what each piece has of a trait.
func (g *Ground) values(trait int) []set {
	if g.has[trait] == nil {
		for _, p := range g.pieces {
			g.has[trait] = append(g.has[trait], p.in.Possible(trait))
		}
	}
	return g.has[trait]
}

// AwayIs is what is said of vehicles without the place.
const AwayIs = -1

// Chart draws the position by the trait that tells most apart of what `say` gives for the cases, by
// their place in the answer: a square is mixed where it holds two of which that is different, or one
// that is not AwayIs beside vehicles without the place.
func (g *Ground) Chart(say func(c int) int) *Chart {
	what := make([]int, len(g.answer.Cases)+1)
	what[len(g.answer.Cases)] = AwayIs
	for i := range g.answer.Cases {
		what[i] = say(i)
	}
	best := 0
	least := g.measure(0, what)
	for _, trait := range g.traits {
		if least.mixed == 0 {
			break
		}
		if m := g.measure(trait, what); m.less(least) {
			best, least = trait, m
		}
	}
	return g.draw(best)
}

// share is how many squares with vehicles there are, and how many of them are mixed.
type share struct{ mixed, squares int }

func (s share) less(o share) bool { return s.mixed*o.squares < o.mixed*s.squares }

// measure counts squares without drawing them.
func (g *Ground) measure(trait int, what []int) (out share) {
	const none, several = -3, -2
	years := len(g.guide.Platform.Years)
	grid := make([]int, years*g.width(trait))
	for i := range grid {
		grid[i] = none
	}
	g.each(trait, func(p *piece, v int) {
		for _, y := range p.years {
			switch at := &grid[v*years+y]; *at {
			case none:
				*at = what[p.of]
				out.squares++
			case what[p.of], several:
			default:
				*at = several
				out.mixed++
			}
		}
	})
	return out
}

// width is one more than the greatest value of a trait that occurs; 1 without a trait.
func (g *Ground) width(trait int) int {
	n := 1
	if trait > 0 {
		for _, to := range g.guide.Occur(trait).Runs() {
			n = to + 1
		}
	}
	return n
}

// each goes through the pieces and the values that they have of a trait; 0 is no trait.
func (g *Ground) each(trait int, do func(p *piece, value int)) {
	for i := range g.pieces {
		p := &g.pieces[i]
		if trait == 0 {
			do(p, 0)
			continue
		}
		for from, to := range g.values(trait)[i].Runs() {
			for v := from; v <= to; v++ {
				do(p, v)
			}
		}
	}
}

func (g *Ground) draw(trait int) *Chart {
	years := len(g.guide.Platform.Years)
	grid := make([]Square, years*g.width(trait))
	g.each(trait, func(p *piece, v int) {
		for _, y := range p.years {
			grid[v*years+y].add(p.of, len(g.answer.Cases))
		}
	})
	out := &Chart{Years: g.guide.Platform.Years}
	if trait == 0 {
		out.Rows = []Lane{{Squares: grid}}
		return out
	}
	for _, set := range g.guide.Traits {
		if set.Trait.Index == trait-1 {
			out.Trait = set.Trait
		}
	}
	for from, to := range g.guide.Occur(trait).Runs() {
		for v := from; v <= to; v++ {
			out.Rows = append(out.Rows, Lane{v, grid[v*years:][:years]})
		}
	}
	return out
}

// add puts a case, or no place, into a square. Cases come in their order.
func (s *Square) add(of, away int) {
	switch n := len(s.Cases); {
	case of == away:
		s.Away = true
	case n == 0 || s.Cases[n-1] != of:
		s.Cases = append(s.Cases, of)
	}
}
