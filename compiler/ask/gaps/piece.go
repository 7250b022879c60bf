package gaps

import (
	"math/big"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
)

// maxPieces is how many boxes of one gap are listed.
const maxPieces = 1000

// pieces splits a gap into boxes that are counted once, and gives what they leave out.
// It runs inside Try.
func pieces(p *decide.Platform, gap space.Region, m decide.Mention) ([]Piece, *big.Int) {
	cover, rest := p.Describe(gap, m, maxPieces)
	var queue []open
	for _, b := range cover {
		in := p.Intersect(gap, p.Box(b))
		queue = append(queue, open{b, in, amount(p, in)})
	}
	var out []Piece
	left := gap
	for len(queue) > 0 {
		best := take(p, left, &queue)
		if best.Empty() {
			break
		}
		out = append(out, Piece{best.Amount, p.Words(best.box)})
		left = p.Minus(left, best.in)
	}
	if rest == space.Empty {
		return out, nil
	}
	return out, p.Count(rest)
}

// open is a box that is not listed yet, with what it held when it was last counted.
type open struct {
	box space.Box
	in  space.Region
	Amount
}

// take removes the box that holds most of what is left. Counts only ever fall, so a box
// whose fresh count is no less than the old counts of the others is the one; of equals
// the first.
func take(p *decide.Platform, left space.Region, queue *[]open) open {
	q := *queue
	for {
		slices.SortStableFunc(q, func(a, b open) int { return a.compare(b.Amount) })
		fresh := amount(p, p.Intersect(left, q[0].in))
		if fresh.compare(q[0].Amount) == 0 {
			best := q[0]
			*queue = q[1:]
			return best
		}
		q[0].Amount = fresh
	}
}
