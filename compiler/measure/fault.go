package measure

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// What errors.Is finds in some of the errors of reading.
var (
	ErrNoValue  = errors.New("a text is no value")
	ErrUnitless = errors.New("a value has no unit")
	ErrDisagree = errors.New("a value is stated in two units that do not agree")
	ErrFraction = errors.New("two numbers are no fraction and no range")
)

// fault is a sentence about a text that is no size or value: what is there, what to
// write.
type fault struct {
	sentence string
	kind     error // one of the above, or nil
	unit     Unit  // of a value that contradicts itself, where it states one
}

func (f *fault) Error() string { return f.sentence }

// UnitOf gives the unit that was stated in a text which is refused because it contradicts
// itself (ErrDisagree, ErrFraction); NoUnit where there is none.
func UnitOf(err error) Unit {
	var f *fault
	if errors.As(err, &f) {
		return f.unit
	}
	return NoUnit
}

// Is makes a fault answer to its kind.
func (f *fault) Is(target error) bool { return f.kind != nil && target == f.kind }

func faultf(format string, args ...any) error {
	return &fault{sentence: fmt.Sprintf(format, args...)}
}

// maxQuoted bounds what a sentence quotes, in characters.
const maxQuoted = 64

// quoted gives a text as a sentence quotes it, cut if it is long. A text with an inch
// sign stands without quotes, which would only confuse.
func quoted(text string) string {
	if r := []rune(text); len(r) > maxQuoted {
		text = string(r[:maxQuoted/2]) + "…"
	}
	if strings.Contains(text, `"`) && strconv.CanBackquote(text) {
		return text
	}
	return strconv.Quote(text)
}
