package space

import "math"

// Purse bounds what several questions may take together, in nodes visited, where the budget
// bounds each alone. It is for one goroutine at a time.
type Purse struct{ whole, left int }

// Purse gives a full purse, which goes with the budget of the space.
func (s *Space) Purse() *Purse { return &Purse{purseWalk * s.budget, purseWalk * s.budget} }

// Used is how much of it is used, and Left how much is left, in nodes visited; a step, which may
// make a node, counts as 16.
func (p *Purse) Used() int { return p.whole - p.left }

// Left is described at Used.
func (p *Purse) Left() int { return p.left }

// Spent tells whether nothing is left.
func (p *Purse) Spent() bool { return p.left <= 0 }

// Forfeit leaves at most a tenth of the whole: where one question was too much, others like it
// will be, and each would take as long.
func (p *Purse) Forfeit() { p.left = min(p.left, p.whole/10) }

// endless is where the effort of a space ends while no purse pays for it.
const endless = math.MaxInt

// Pay runs f and takes its effort from a purse. Once nothing is left, what makes regions
// stops as where the budget is used up, and Try recovers that.
func (s *Space) Pay(p *Purse, f func()) {
	before, end := s.walked, s.end
	s.end = min(end, before+max(0, p.left))
	defer func() {
		p.left -= s.walked - before
		s.end = end
	}()
	f()
}

// Broke tells whether the purse that pays is empty.
func (s *Space) Broke() bool { return s.walked >= s.end }
