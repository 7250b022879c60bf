package check

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"
	"sort"

	"ferrule/compiler/finding"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

var valueOutlier = &Check{
	Kind: finding.Kind{Code: finding.ValueOutlier, Severity: "warning",
		Summary: "a part's value reads like the right number in the wrong unit",
		Doc:     "The value is far from those of the other parts of its family, which are near each other, and would be among them if its number were of another unit (in for mm, psi for bar, lb·ft for N·m), or had its decimal sign one place off. At least three other parts are needed. Where the value is right, accept the finding for the part.",
		Before:  "Parts!G1  Extended length [mm]   G4  24.1   (the other dampers: 570 to 655)",
		After:   "Parts!G4  24.1 in"},
	Catalogue: func(c *Catalogue) {
		for _, g := range columnsOf(c.Parts) {
			for i := range g.values {
				if f := g.outlier(&g.values[i]); f != nil {
					c.Report(f)
				}
			}
		}
	},
}

// column holds the values of one property over the parts of a family: in the order of
// the parts, and by size.
type column struct {
	values, sorted []magnitude
	taken          map[measure.Unit][]mistake
}

// magnitude is a value that is more than 0, in coherent SI units. A double does, since
// nothing is worked out with it, and what is told is exact again.
type magnitude struct {
	part *model.Part
	said *model.Property
	si   float64
}

// columnsOf gives the columns in the order in which their first values stand.
func columnsOf(parts []*model.Part) []*column {
	type key struct {
		name, family string
		dimension    measure.Dimension
	}
	by := map[key]*column{}
	var out []*column
	for _, p := range parts {
		for i := range p.Properties {
			said := &p.Properties[i]
			if q := said.Quantity; !q.Known() || q.Low.Sign() <= 0 || q.Bound() != measure.Exactly || q.Dimension() == measure.DegreeCelsius.Dimension() {
				continue // temperatures in two units are no multiples of each other
			}
			k := key{word.Fold(said.Name), word.Fold(p.Family), said.Quantity.Dimension()}
			if by[k] == nil {
				by[k] = &column{}
				out = append(out, by[k])
			}
			by[k].values = append(by[k].values, magnitude{p, said, middle(said.Quantity)})
		}
	}
	for _, c := range out {
		c.sorted = slices.Clone(c.values)
		slices.SortStableFunc(c.sorted, func(a, b magnitude) int { return cmp.Compare(a.si, b.si) })
	}
	return out
}

// middle gives the middle of a value in coherent SI units.
func middle(q measure.Quantity) float64 {
	low, high := q.SI()
	si, _ := low.Add(low, high).Quo(low, big.NewRat(2, 1)).Float64()
	return si
}

// leastOthers is how many other values it takes to tell what is usual.
const leastOthers = 3

// outlier tells of a value that would be among the others if it were meant in another
// unit, or with its decimal sign one place off; nil where it is no such value.
func (c *column) outlier(v *magnitude) *finding.Finding {
	if len(c.values) <= leastOthers {
		return nil
	}
	for _, m := range c.mistakes(v.said.Quantity.Unit) {
		if usual := c.usual(v, m.factor); usual != nil {
			meant := v.said.Quantity
			meant.Unit = m.unit
			return c.told(v, usual, fmt.Sprintf("the number reads like %s", meant), fmt.Sprintf("write the unit into the cell if %s is meant", m.unit))
		}
	}
	for _, factor := range []float64{10, 0.1} {
		if usual := c.usual(v, factor); usual != nil {
			return c.told(v, usual, "its decimal sign may be one place off", "look the value up where it comes from")
		}
	}
	return nil
}

func (c *column) told(v *magnitude, usual []magnitude, reads, fix string) *finding.Finding {
	family, unit := "", v.said.Quantity.Unit
	if v.part.Family != "" {
		family = " of the family " + v.part.Family
	}
	from, to := usual[0].said.Quantity.In(unit), usual[len(usual)-1].said.Quantity.In(unit)
	return &finding.Finding{Code: finding.ValueOutlier, Severity: finding.Warning, Part: v.part.Number,
		Message: fmt.Sprintf("%s of %s is %s, and of the other parts%s mostly %s; %s",
			v.said.Name, v.part.Number, v.said.Quantity, family, measure.New(from.Low, to.High, unit), reads),
		Cells: finding.At(v.said.At), Fix: fix}
}

// mistake is a unit that may have been meant, and what its value is to that of the unit
// that stands there.
type mistake struct {
	unit   measure.Unit
	factor float64
}

// leastFactor is how far apart two units must be for parts to tell which was meant: a
// quart and a litre are not, lb·ft and N·m (1.356) are.
const leastFactor = 1.3

// mistakes gives the units that may have been meant in place of one. Nobody measures
// parts in yards or miles.
func (c *column) mistakes(as measure.Unit) []mistake {
	if c.taken == nil {
		c.taken = map[measure.Unit][]mistake{}
	}
	if out, ok := c.taken[as]; ok {
		return out
	}
	var out []mistake
	for _, u := range measure.Units() {
		if u != as && u.Dimension() == as.Dimension() && u != measure.One && u != measure.Yard && u != measure.Mile {
			if factor, _ := measure.Convert(big.NewRat(1, 1), u, as).Float64(); max(factor, 1/factor) > leastFactor {
				out = append(out, mistake{u, factor})
			}
		}
	}
	c.taken[as] = out
	return out
}

// usual gives the other values if the value is far from them as it stands, and among them
// once it is multiplied by the factor; else nil.
//
// The others are those near the median: within the factor's fourth root of it, so that
// they are nearer to each other than the value is to them. They must be three, and three
// quarters of all others. Among them means a tenth beyond them at most, or a hundredth
// where the factor is so small that parts may well differ as much.
func (c *column) usual(v *magnitude, factor float64) []magnitude {
	median, apart, room := c.sorted[len(c.sorted)/2].si, max(factor, 1/factor), 1.1
	if apart < 5 {
		room = 1.01
	}
	reach := math.Sqrt(math.Sqrt(apart))
	if v.si >= median/reach && v.si <= median*reach {
		return nil
	}
	near := c.sorted[c.below(median/reach):c.below(math.Nextafter(median*reach, math.Inf(1)))]
	if len(near) < leastOthers || 4*len(near) < 3*(len(c.values)-1) {
		return nil
	}
	if si := v.si * factor; si < near[0].si/room || si > near[len(near)-1].si*room {
		return nil
	}
	return near
}

// below is the number of values below a limit.
func (c *column) below(limit float64) int {
	return sort.Search(len(c.sorted), func(i int) bool { return c.sorted[i].si >= limit })
}
