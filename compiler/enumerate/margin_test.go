package enumerate

import (
	"math"
	"math/big"
	"regexp"
	"strconv"
	"strings"
)

// margin is by how much a broken limit does not hold.
func (l *limit) margin(left, right amount) *big.Rat {
	sub := func(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
	switch l.must {
	case "at least":
		return sub(right.high, left.low)
	case "at most":
		return sub(left.high, right.low)
	}
	low, high := sub(left.low, right.low), sub(left.high, right.high)
	if low.Abs(low).Cmp(high.Abs(high)) > 0 {
		return low
	}
	return high
}

// toldMargin reads by how much a broken limit is said not to hold: `short by 4 mm`.
var toldMargin = regexp.MustCompile(`; (short|over|off) by (\S+(?: \d+/\d+)?)(?: ([a-z]+|%))?(?: \([^)]*\))?$`)

// units are metres, kilograms or plain numbers (NIST SP 811, App. B.8).
func units() map[string]float64 {
	return map[string]float64{"": 1, "mm": 0.001, "cm": 0.01, "m": 1, "in": 0.0254, "ft": 0.3048, "kg": 1, "t": 1000, "lb": 0.45359237}
}

// margin compares the margin that a message tells with the one that was worked out, as
// far as it is printed.
func (k *checker) margin(e *expected, f finding) {
	if e.margin == nil {
		return
	}
	m := toldMargin.FindStringSubmatch(f.Message)
	if m == nil {
		k.failf(f.Code, "no margin in %q", f.Message)
		return
	}
	unit, known := units()[m[3]]
	said, ok := readNumber(m[2])
	want, _ := e.margin.Float64()
	if !known || !ok || math.Abs(said*unit-want) > 1e-3*math.Abs(want) || m[1] != map[string]string{"at least": "short", "at most": "over", "equal to": "off"}[e.must] {
		k.failf(f.Code, "%q, want %s (%v)", f.Message, e.margin.RatString(), want)
	}
}

// readNumber reads `4`, `0.157` and `9 1/2`.
func readNumber(text string) (float64, bool) {
	sum := 0.0
	for _, part := range strings.Fields(text) {
		over, under, fraction := strings.Cut(part, "/")
		x, err := strconv.ParseFloat(over, 64)
		if err != nil {
			return 0, false
		}
		if fraction {
			y, err := strconv.ParseFloat(under, 64)
			if err != nil {
				return 0, false
			}
			x /= y
		}
		sum += x
	}
	return sum, true
}

// says writes the margin as a message does.
func (e *expected) says() string {
	m, _ := e.margin.Float64()
	return map[string]string{"at least": "short", "at most": "over", "equal to": "off"}[e.must] + " by " + strconv.FormatFloat(m, 'g', -1, 64)
}

// named gives the cells in the order of a finding.
func (e *expected) named(first, last ref) []ref {
	out := []ref{first}
	for _, at := range e.cells {
		if at != first && at != last {
			out = append(out, at)
		}
	}
	return append(out, last)
}
