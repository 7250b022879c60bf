package finding

import "unicode/utf8"

// A message that quotes a cell of thousands of signs is cut in the middle: what is wrong
// stands before the quotation, and what to write behind it.
const (
	longest = 900 // runes that a message may have
	kept    = 400 // at each end of a longer one
)

// Short gives a message in a length that can be read.
func Short(message string) string {
	if utf8.RuneCountInString(message) <= longest {
		return message
	}
	r := []rune(message)
	return string(r[:kept]) + " … " + string(r[len(r)-kept:])
}
