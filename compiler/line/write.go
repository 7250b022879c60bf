package line

import (
	"fmt"
	"strings"
)

// Write says a range as a cell would: `41200 to 46999`, `2009-03 to 2018-12`, `from 41200`. Days
// are said as months where they begin with one and end with one.
func (k Kind) Write(r Range) string { return k.write(r) }

func (k Kind) write(r Range) string {
	if _, last := k.Ends(); r.To == last && r.From < last {
		return "from " + k.beginning(r)
	}
	if k == Date {
		if from, to, ok := months(r); ok {
			if from == to {
				return from
			}
			return from + " to " + to
		}
	}
	if r.From == r.To {
		return k.point(r.First())
	}
	return k.point(r.First()) + " to " + k.point(r.End())
}

// Condition says a range as Write does, and of one that begins where values of its kind do only its
// end: `to 41199`.
func (k Kind) Condition(r Range) string {
	if first, last := k.Ends(); r.From == first && r.From < r.To && r.To < last {
		if k == Date {
			if _, to, ok := months(r); ok {
				return "to " + to
			}
		}
		return "to " + k.point(r.End())
	}
	return k.write(r)
}

// Point writes one value: `41200`, `A100`, `2009-03-01`.
func (k Kind) Point(p Point) string { return k.point(p) }

func (k Kind) point(p Point) string {
	if k == Date {
		y, m, d := p.Day()
		return fmt.Sprintf("%04d-%02d-%02d", y, m, d)
	}
	return fmt.Sprintf("%s%d", p.Letters, p.N)
}

// months gives the first and the last month of a range that is made of months.
func months(r Range) (from, to string, ok bool) {
	y, m, d := r.First().Day()
	endYear, endMonth, _ := r.End().Day()
	_, _, next := Point{N: r.To + 1}.Day()
	if d != 1 || next != 1 {
		return "", "", false
	}
	return fmt.Sprintf("%04d-%02d", y, m), fmt.Sprintf("%04d-%02d", endYear, endMonth), true
}

// Words says a set: `41200 to 46999 or A100`.
func (k Kind) Words(s Set) string {
	words := make([]string, len(s))
	for i, r := range s {
		words[i] = k.write(r)
	}
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}
