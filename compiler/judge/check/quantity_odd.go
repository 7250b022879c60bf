package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// mostTimes is how many times what a position takes a cell may say.
const mostTimes = 2

var quantityOdd = &Check{
	Kind: finding.Kind{Code: finding.QuantityOdd, Severity: "warning",
		Summary: "a cell says more than twice as many as the position takes, or fewer and no note says why",
		Doc:     "A quantity in a cell comes before that of Positions. More than twice as many is probably a slip of the fingers. Fewer leave places of the position empty, which a note on the row or the cell explains. Parts that are joined by + are added up, what comes behind the first of them may be bolts and is told of only where its family belongs at the position, and a kit holds its own quantities.",
		Before:  "Positions!C2  4   (Front damper)\nFitment!D4  40 x HD-20",
		After:   "Fitment!D4  4 x HD-20"},
	Position: func(p *Position) {
		told := tally{p: p}
		for i := range p.Levels {
			level := &p.Levels[i]
			for _, c := range level.Cells {
				if !counted(c.Fits) {
					continue
				}
				for _, v := range p.Variants {
					if odd := oddQuantity(c.FitCell, v.Row.Quantity); odd != nil {
						told.add(c.At, v.Row.At, "", p.Intersect(v.Where, p.Decides(level, c)), func() finding.Finding {
							return odd.finding(c.FitCell, v.Row)
						})
					}
				}
			}
		}
		told.report()
	},
}

// counted tells whether a cell states any quantity.
func counted(f *model.Fits) bool {
	for _, a := range f.Alternatives {
		for _, i := range a {
			if i.Quantity != 0 {
				return true
			}
		}
	}
	return false
}

// odd is a quantity that is not what a position takes.
type odd struct {
	part *model.Part
	n    int
	few  bool
}

// oddQuantity gives the first quantity of a cell that is odd where the position takes so
// many; nil for none.
func oddQuantity(fc *model.FitCell, takes int) *odd {
	for _, a := range fc.Fits.Alternatives {
		sum, sums := 0, true
		for k, i := range a {
			if i.Quantity > mostTimes*takes && (k == 0 || fc.Position.Takes(i.Part)) {
				return &odd{part: i.Part, n: i.Quantity}
			}
			sum += i.Quantity
			sums = sums && i.Quantity != 0 && !i.Part.Kit()
		}
		if sums && sum < takes && fc.Notes == nil && !joinedOnes(a) {
			return &odd{part: a[0].Part, n: sum, few: true}
		}
	}
	return nil
}

// joinedOnes tells whether all parts that are joined are there once, which is what + says
// where no quantity is written.
func joinedOnes(a model.Alternative) bool {
	for _, i := range a {
		if i.Quantity != 1 {
			return false
		}
	}
	return len(a) > 1
}

func (o *odd) finding(fc *model.FitCell, row *model.PositionRow) finding.Finding {
	f := finding.Finding{Code: finding.QuantityOdd, Severity: finding.Warning, Part: o.part.Number, Cells: finding.At(fc.At, row.At)}
	if o.few {
		f.Message = fmt.Sprintf("%q offers %d, and %s takes %d; no note says why", Says(fc.Fits), o.n, fc.Position.Name, row.Quantity)
		f.Fix = "write the quantity that is meant, or a note that says what the other places get"
		return f
	}
	f.Message = fmt.Sprintf("%d x %s is more than twice what %s takes, which is %d", o.n, o.part.Number, fc.Position.Name, row.Quantity)
	f.Fix = "write the quantity that is meant"
	return f
}
