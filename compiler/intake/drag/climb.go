package drag

import (
	"strconv"
	"strings"
)

// climb is which of the numbers in a text climb.
type climb uint8

const (
	whole  climb = iota // the text is a number
	single              // the text holds one number, which climbs
	first               // of several numbers the first one
	last                // of several numbers the last one
	both                // of two numbers both, by one
)

// climbing tells whether a text is another with one number greater by one, or both of two.
func climbing(a, b string) (climb, bool) {
	if d := len(b) - len(a); d < 0 || d > 2 || !differByOne(a, b) {
		return 0, false
	}
	x, y := numbers(a), numbers(b)
	if len(x) == 0 || len(x) != len(y) || outside(a, x) != outside(b, y) {
		return 0, false
	}
	up := 0
	at := 0
	for i := range x {
		switch one, ok := follows(a[x[i][0]:x[i][1]], b[y[i][0]:y[i][1]]); {
		case !ok:
			return 0, false
		case one:
			up++
			at = i
		}
	}
	switch {
	case up == 2 && len(x) == 2:
		return both, true
	case up != 1:
		return 0, false
	case len(x) == 1 && x[0] == [2]int{0, len(a)}:
		return whole, true
	case len(x) == 1:
		return single, true
	case at == len(x)-1:
		return last, true
	case at == 0:
		return first, true
	}
	return 0, false
}

// differByOne tells whether two texts first differ in numbers of both of which one follows the
// other: most do not, and are done with here.
func differByOne(a, b string) bool {
	for i := range len(a) {
		if a[i] == b[i] {
			continue
		}
		if !digit(a[i]) || !digit(b[i]) {
			return false
		}
		from := i
		for from > 0 && digit(a[from-1]) {
			from--
		}
		one, _ := follows(a[from:digits(a, i)], b[from:digits(b, i)])
		return one
	}
	return false
}

// digits gives where a run of digits ends.
func digits(s string, i int) int {
	for i < len(s) && digit(s[i]) {
		i++
	}
	return i
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// number tells whether a text is digits and nothing else.
func number(s string) bool {
	for i := range len(s) {
		if !digit(s[i]) {
			return false
		}
	}
	return s != ""
}

// numbers gives where the runs of digits of a text are.
func numbers(s string) [][2]int {
	var out [][2]int
	for i := 0; i < len(s); i++ {
		if !digit(s[i]) {
			continue
		}
		from := i
		i = digits(s, i)
		out = append(out, [2]int{from, i})
	}
	return out
}

// outside gives what stands between the numbers of a text.
func outside(s string, numbers [][2]int) string {
	var b strings.Builder
	at := 0
	for _, n := range numbers {
		b.WriteString(s[at:n[0]])
		b.WriteByte('0')
		at = n[1]
	}
	b.WriteString(s[at:])
	return b.String()
}

// follows tells whether a number is another one, or (one) the next after it, written with
// as many digits unless it needs one more.
func follows(a, b string) (one, ok bool) {
	if a == b {
		return false, true
	}
	x, err := strconv.ParseUint(a, 10, 63)
	if err != nil {
		return false, false
	}
	y, err := strconv.ParseUint(b, 10, 63)
	if err != nil || y != x+1 || len(b) < len(a) || len(b) > len(a) && b[0] == '0' {
		return false, false
	}
	return true, true
}
