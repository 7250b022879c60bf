package measure

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// ErrUnitless is what errors.Is finds in the error about a size without a unit.
var ErrUnitless = errors.New("a size has no unit")

// fault is a sentence about a text that is no size: what is there, what to write.
type fault struct {
	sentence string
	unitless bool
}

func (f *fault) Error() string { return f.sentence }

// Is makes a fault about a missing unit answer to ErrUnitless.
func (f *fault) Is(target error) bool { return f.unitless && target == ErrUnitless }

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
