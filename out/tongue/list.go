package tongue

import (
	"regexp"
	"strings"
)

// verb is what stands for something in a text: %s, %d, %[2]s.
var verb = regexp.MustCompile(`%(?:\[\d+\])?[sd]`)

// And gives a list of all of some words: `A, B and C`.
func (t *Tongue) And(words []string) string { return t.list(words, "and") }

// Or gives a list of which one is meant: `A, B or C`.
func (t *Tongue) Or(words []string) string { return t.list(words, "or") }

func (t *Tongue) list(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + t.Last(last, words[n]) + words[n]
}

// Last gives what stands before the last word of a list, which is told where it is known: in
// Spanish y is e before a word that begins with its sound, and o is u.
func (t *Tongue) Last(joint, next string) string {
	words := t.Say(joint)
	if t.base == "es" {
		switch {
		case joint == "and" && likeI.MatchString(next):
			words = "e"
		case joint == "or" && likeO.MatchString(next):
			words = "u"
		}
	}
	return " " + words + " "
}

// How words begin that sound like the Spanish y and o (RAE, Diccionario panhispánico de dudas, y² and o²).
var (
	likeI = regexp.MustCompile(`(?i)^h?[ií]([^aeoáéó]|$)`)
	likeO = regexp.MustCompile(`(?i)^(h?[oó]|8|11([^0-9]|$))`)
)
