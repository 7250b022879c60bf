package line

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// A serial number. Hyphens, dashes and spaces may stand between letters and digits.
var serial = regexp.MustCompile(`^(\pL*)[\s\-\x{2010}-\x{2015}\x{2212}]*([0-9]+)$`)

const mostLetters, mostDigits = 8, 15

// parseSerial reads a serial number.
func parseSerial(text string) (Range, error) {
	m := serial.FindStringSubmatch(text)
	if m == nil || m[1] == "" && len(m[2]) != len(text) {
		return Range{}, fmt.Errorf("%q is not a serial number; write letters, if it has any, and digits, such as 41200 or A100", text)
	}
	digits := strings.TrimLeft(m[2], "0")
	switch {
	case len([]rune(m[1])) > mostLetters:
		return Range{}, fmt.Errorf("%q has more than %d letters; a serial number here has up to %d and then digits", text, mostLetters, mostLetters)
	case len(digits) > mostDigits:
		return Range{}, fmt.Errorf("%q has more than %d digits; leave out those that are the same for all", text, mostDigits)
	case digits == "":
		digits = "0"
	}
	n, err := strconv.ParseInt(digits, 10, 64)
	if err != nil {
		panic("line: parseSerial: not digits")
	}
	return One(Point{strings.ToUpper(m[1]), n}), nil
}
