package word

import "strings"

// List joins words: `a`, `a or b`, `a, b or c`.
func List(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
}
