package check

import (
	"fmt"
	"math/big"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

var orderReversed = &Check{
	Kind: finding.Kind{Code: finding.OrderReversed, Severity: "warning",
		Summary: "of two values of a part the other one is the greater than in all other parts of its family",
		Doc:     "Where in at least three other parts of a family one column is greater than another, and in one part it is the other way round (or in one of seven), the two cells of that part were probably swapped. It is told only where the two would be among those of the other parts once they are exchanged, and where the other parts leave no doubt: every value of the one column is above every value of the other, or the one is always about as many times the other (five other parts), or there are twelve. Values that are ranges are compared where they do not overlap. Where the part really is so, accept the finding for it.",
		Before:  "Parts!G2  Extended length [mm]  340   H2  Compressed length [mm]  570",
		After:   "Parts!G2  570   H2  340"},
	Catalogue: func(c *Catalogue) {
		for _, o := range ordersOf(c.Parts) {
			odd, others := o.reversed()
			for i := range odd {
				c.Report(o.finding(&odd[i], len(others)))
			}
		}
	},
}

// order is two columns of the parts of a family, in the order of the columns.
type order struct {
	first, second string
	above, below  []stated // where the first is the greater, and where the second is
	overlap       int      // parts of which the two overlap
}

// stated is what a part says under both columns.
type stated struct {
	part *model.Part
	a, b *model.Property
}

// ordersOf gives the pairs of columns of each family whose values can be compared, in the
// order in which they are first met.
func ordersOf(parts []*model.Part) []*order {
	type key struct {
		family, first, second string
		dimension             measure.Dimension
	}
	by := map[key]*order{}
	var out []*order
	for _, p := range parts {
		for i := range p.Properties {
			a := &p.Properties[i]
			if p.Family == "" || !closed(a) {
				continue
			}
			for k := range p.Properties[i+1:] {
				b := &p.Properties[i+1+k]
				if !closed(b) || a.Quantity.Dimension() != b.Quantity.Dimension() {
					continue
				}
				at := key{word.Fold(p.Family), word.Fold(a.Name), word.Fold(b.Name), a.Quantity.Dimension()}
				if by[at] == nil {
					by[at] = &order{first: a.Name, second: b.Name}
					out = append(out, by[at])
				}
				by[at].add(stated{p, a, b})
			}
		}
	}
	return out
}

// closed tells whether a value is stated and closed at both ends.
func closed(p *model.Property) bool {
	return p.By == nil && !p.Refused && p.Quantity.Known() && p.Quantity.Bound() == measure.Exactly
}

func (o *order) add(s stated) {
	aLow, aHigh := s.a.Quantity.SI()
	bLow, bHigh := s.b.Quantity.SI()
	switch {
	case aLow.Cmp(bHigh) > 0:
		o.above = append(o.above, s)
	case bLow.Cmp(aHigh) > 0:
		o.below = append(o.below, s)
	default:
		o.overlap++
	}
}

// leastToOne is how many other parts it takes for each that is told, where several are.
const leastToOne = 6

// reversed gives the parts in which the order is another than in the others, and those;
// none where the others leave doubt.
func (o *order) reversed() (odd, others []stated) {
	odd, others = o.below, o.above
	if len(odd) > len(others) {
		odd, others = others, odd
	}
	if strange := len(odd) + o.overlap; len(odd) == 0 || len(others) < leastOthers || strange > max(1, len(others)/leastToOne) {
		return nil, nil
	}
	e := newExtents(others)
	if !e.sure(len(others)) {
		return nil, nil
	}
	return slices.DeleteFunc(slices.Clone(odd), func(s stated) bool { return !e.fits(&s) }), others
}

// extents are those of the values of the other parts, and of how many times the first is
// the second, which is known where all are more than 0.
type extents struct{ a, b, times extent }

// extent is the least and the greatest; empty while they are nil.
type extent struct{ low, high *big.Rat }

func (e *extent) add(low, high *big.Rat) {
	if e.low == nil || low.Cmp(e.low) < 0 {
		e.low = low
	}
	if e.high == nil || high.Cmp(e.high) > 0 {
		e.high = high
	}
}

func newExtents(of []stated) *extents {
	e := &extents{}
	positive := true
	for i := range of {
		a, b := of[i].si()
		e.a.add(a.low, a.high)
		e.b.add(b.low, b.high)
		if positive = positive && a.low.Sign() > 0 && b.low.Sign() > 0; positive {
			e.times.add(new(big.Rat).Quo(a.low, b.high), new(big.Rat).Quo(a.high, b.low))
		}
	}
	if !positive {
		e.times = extent{}
	}
	return e
}

func (s *stated) si() (a, b extent) {
	a.low, a.high = s.a.Quantity.SI()
	b.low, b.high = s.b.Quantity.SI()
	return a, b
}

// fits tells whether the values of a part would be among the others once they are
// exchanged: a tenth of the extent beyond them at most, or of the greatest value.
func (e *extents) fits(s *stated) bool {
	a, b := s.si()
	return e.a.holds(b) && e.b.holds(a)
}

func (e extent) holds(v extent) bool {
	room := new(big.Rat).Abs(e.high)
	if low := new(big.Rat).Abs(e.low); low.Cmp(room) > 0 {
		room = low
	}
	room.Quo(room, big.NewRat(10, 1))
	return v.low.Cmp(new(big.Rat).Sub(e.low, room)) >= 0 && v.high.Cmp(new(big.Rat).Add(e.high, room)) <= 0
}

const (
	// leastTimes is how many other parts it takes where columns overlap and the one is
	// always about as many times the other.
	leastTimes = 5
	// leastAlways is how many it takes where they have nothing but the order in common: that
	// it comes about by chance is less likely than one in three hundred.
	leastAlways = 12
)

// sure tells whether so many other parts leave no doubt that the order is meant.
func (e *extents) sure(others int) bool {
	if others >= leastAlways || e.a.low.Cmp(e.b.high) > 0 || e.b.low.Cmp(e.a.high) > 0 {
		return true
	}
	return others >= leastTimes && e.steady()
}

// steady tells whether the one is always at least 1.15 times the other, and the most that
// it is no more than one and a half times the least.
func (e *extents) steady() bool {
	t := e.times
	if t.low == nil {
		return false
	}
	if t.high.Cmp(big.NewRat(1, 1)) < 0 {
		t = extent{new(big.Rat).Inv(t.high), new(big.Rat).Inv(t.low)}
	}
	return t.low.Cmp(big.NewRat(115, 100)) >= 0 && t.high.Cmp(new(big.Rat).Mul(t.low, big.NewRat(3, 2))) <= 0
}

func (o *order) finding(odd *stated, others int) *finding.Finding {
	greater := o.first
	if len(o.below) > len(o.above) {
		greater = o.second
	}
	count := fmt.Sprintf("the %d", others)
	if all := len(o.above) + len(o.below) + o.overlap - 1; others < all {
		count = fmt.Sprintf("%d of the %d", others, all)
	}
	said := fmt.Sprintf("%s of %s is %s and %s is %s", o.first, odd.part.Number, odd.a.Quantity, o.second, odd.b.Quantity)
	of := fmt.Sprintf("other parts of the family %s that state both, %s is the greater", odd.part.Family, greater)
	return &finding.Finding{Code: finding.OrderReversed, Severity: finding.Warning, Part: odd.part.Number,
		Message:  fmt.Sprintf("%s; in %s %s", said, count, of),
		Constant: fmt.Sprintf("%s; in the %s", said, of),
		Cells:    finding.At(odd.a.At, odd.b.At),
		Fix:      "look whether the two are swapped"}
}
