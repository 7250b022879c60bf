package check

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/finding"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

// columnOf gives parts that state values of a unit.
func columnOf(unit measure.Unit, values ...*big.Rat) []*model.Part {
	var out []*model.Part
	for i, v := range values {
		p := &model.Part{Number: fmt.Sprint("P-", i)}
		p.Properties = []model.Property{{Name: "Value", Quantity: measure.New(v, v, unit)}}
		out = append(out, p)
	}
	return out
}

func outliers(parts []*model.Part) []*finding.Finding {
	var out []*finding.Finding
	valueOutlier.Catalogue(&Catalogue{Catalogue: &model.Catalogue{Parts: parts}, report: func(f *finding.Finding) { out = append(out, f) }})
	return out
}

// Every unit that may have been meant in place of another is found, or one that is nearly
// the same: bar and kgf/cm² are 2 % apart.
func TestWrongUnitIsFound(t *testing.T) {
	compared := 0
	for _, as := range measure.Units() {
		for _, meant := range measure.Units() {
			if as.Dimension() != meant.Dimension() || as.Dimension() == measure.DegreeCelsius.Dimension() || as == measure.One || meant == measure.One || meant == measure.Yard || meant == measure.Mile {
				continue
			}
			one, _ := measure.Convert(big.NewRat(1, 1), meant, as).Float64()
			if max(one, 1/one) < leastFactor {
				continue
			}
			compared++
			right := []*big.Rat{big.NewRat(100, 1), big.NewRat(101, 1), big.NewRat(100, 1), big.NewRat(102, 1)}
			assert.Empty(t, outliers(columnOf(as, right...)))
			wrong := measure.Convert(big.NewRat(101, 1), as, meant)
			told := outliers(columnOf(as, append(right, wrong)...))
			if assert.Len(t, told, 1, "%s for %s", meant, as) {
				assert.Equal(t, "P-4", told[0].Part)
				assert.Contains(t, told[0].Message, "reads like", "%s for %s", meant, as)
			}
		}
	}
	require.Greater(t, compared, 100)
}

// Values that are within a fifth of each other are never called wrong, nor is anything
// where there are too few to compare with.
func TestLikeValuesAreNoOutliers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom(measure.Units()).Draw(t, "unit")
		var values []*big.Rat
		for _, n := range rapid.SliceOfN(rapid.Int64Range(1000, 1200), 1, 12).Draw(t, "values") {
			values = append(values, big.NewRat(n, 10))
		}
		if told := outliers(columnOf(unit, values...)); len(told) > 0 {
			t.Fatal(told[0].Message)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		var values []*big.Rat
		for _, n := range rapid.SliceOfN(rapid.Int64Range(1, 1e6), 1, 3).Draw(t, "values") {
			values = append(values, big.NewRat(n, 10))
		}
		if told := outliers(columnOf(measure.Millimetre, values...)); len(told) > 0 {
			t.Fatal(told[0].Message)
		}
	})
}

// BenchmarkOutliers looks at 10,000 parts of one family with spread values.
func BenchmarkOutliers(b *testing.B) {
	var values []*big.Rat
	for i := range int64(10_000) {
		values = append(values, big.NewRat(3000+i*7919%4000, 10))
	}
	parts := columnOf(measure.Millimetre, values...)
	for b.Loop() {
		outliers(parts)
	}
}
