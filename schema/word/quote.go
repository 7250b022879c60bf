package word

import (
	"strconv"
	"strings"
	"unicode"
)

// Quote quotes what a cell says. A text that holds quotation marks itself gets others, so
// that no backslash comes into it.
func Quote(text string) string {
	if strings.Contains(text, `"`) && !strings.ContainsFunc(text, unicode.IsControl) {
		return "“" + text + "”"
	}
	return strconv.Quote(text)
}
