package bind

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// pairs gives a position that another one names as its pair that one as its own, where
// it names none, and reports those that are no pair.
func (b *binder) pairs() {
	for _, p := range b.cat.Positions {
		if p.Pair != nil && p.Pair.Pair == nil {
			p.Pair.Pair, p.Pair.PairAt = p, p.PairAt
		}
	}
	for _, p := range b.cat.Positions {
		switch q := p.Pair; {
		case q == nil:
		case q.Pair != p:
			b.noPair(p, fmt.Sprintf("%s names %s as its pair, and %s is the pair of %s", p.Name, q.Name, q.Name, q.Pair.Name),
				"let the two positions opposite each other name each other, and leave Pair blank elsewhere")
		case p.Index < q.Index:
			if why := crooked(p, q); why != "" {
				b.noPair(p, why, "correct Side, Axle or Pair")
			}
		}
	}
}

func (b *binder) noPair(p *model.Position, why, fix string) {
	cells := finding.At(p.PairAt)
	if p.Pair.PairAt != p.PairAt {
		cells = finding.At(p.PairAt, p.Pair.PairAt)
	}
	b.Report(&finding.Finding{Code: finding.PairConflict, Severity: finding.Error, Position: p.Name, Message: why, Cells: cells, Fix: fix})
}

// crooked says why two positions that name each other do not stand opposite each other,
// "" where they may.
func crooked(p, q *model.Position) string {
	switch {
	case p.Side == q.Side && (p.Side == "left" || p.Side == "right"):
		return fmt.Sprintf("%s and %s are a pair, and both are on the %s", p.Name, q.Name, p.Side)
	case p.Axle != "" && q.Axle != "" && p.Axle != q.Axle:
		return fmt.Sprintf("%s and %s are a pair, and one is on the %s axle, the other on the %s axle", p.Name, q.Name, p.Axle, q.Axle)
	}
	return ""
}
