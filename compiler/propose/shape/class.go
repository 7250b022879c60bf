package shape

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"ferrule/schema/word"
)

// Class is what a text looks like, whatever it means.
type Class uint8

const (
	Words  Class = iota // a name, or a few words
	Mark                // a short sign, such as x or ●, that may stand for more
	Number              // a number of at most three digits, or with a decimal sign
	Years               // years: 2004, 2004-2010, 07-12, 2012 up
	Code                // letters and digits in one, such as a part number
	Codes               // several of them with signs between
	Size                // a number or a fraction with a unit
	Prose               // a sentence, or more than six words
	classes
)

// words that people use as marks, folded.
var spelledMarks = map[string]bool{"yes": true, "no": true, "std": true, "opt": true, "ok": true, "n/a": true, "na": true}

var (
	number = regexp.MustCompile(`^[-+±]?\d{1,3}(?:[.,]\d+)?$|^[-+±]?\d+[.,]\d+$`)
	code   = regexp.MustCompile(`^[\p{L}\d][\p{L}\d./_-]*$`)
	size   = regexp.MustCompile(`(?i)^(?:ø\s*)?(?:\d+\s+\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?|[½¼¾⅛⅜⅝⅞])(?:\s*[x×]\s*\d+(?:[.,]\d+)?)?[\s-]?` +
		`(?:in|inch|"|”|mm|cm|m|ft|kg|g|t|lb|lbs|oz|psi|bar|kpa|nm|n·m|n|kn|l|°|deg|%|pcs)\.?$`)
)

// ClassOf tells what a text looks like.
func ClassOf(text string) Class {
	switch {
	case isMark(text):
		return Mark
	case IsYears(text):
		return Years
	case number.MatchString(text):
		return Number
	case size.MatchString(text):
		return Size
	case isCode(text):
		return Code
	case len(several(text)) > 1:
		return Codes
	case utf8.RuneCountInString(text) > 60 || len(strings.Fields(text)) > 6:
		return Prose
	}
	return Words
}

// isMark tells signs and single letters, alone or doubled.
func isMark(text string) bool {
	if spelledMarks[word.Fold(text)] {
		return true
	}
	n := utf8.RuneCountInString(text)
	if n > 2 {
		return false
	}
	digits := strings.ContainsFunc(text, unicode.IsDigit)
	return !digits && (n == 1 || !strings.ContainsFunc(text, unicode.IsLetter) || strings.EqualFold(text[:1], text[1:]))
}

// isCode tells what looks like a part number: at least four signs in one word, of which two are
// digits, or one and a hyphen.
func isCode(text string) bool {
	if !code.MatchString(text) || utf8.RuneCountInString(text) < 4 || utf8.RuneCountInString(text) > 30 {
		return false
	}
	digits := 0
	for _, r := range text {
		if unicode.IsDigit(r) {
			digits++
		}
	}
	return (digits >= 2 || digits == 1 && strings.ContainsAny(text, "-./")) && !strings.ContainsAny(text[len(text)-1:], "./-_") &&
		separate(text, "/") == nil
}

// Separators are the signs that part several values of a cell, those that people mean most
// plainly first.
func Separators() []string {
	return []string{"\n", ";", " / ", "/", ",", " & ", "&", " + ", "+", " or ", " and "}
}

// Separate gives the sign that parts a cell into codes, and the codes; "" where none does.
func Separate(text string) (sign string, parts []string) {
	for _, sign := range Separators() {
		if parts := separate(text, sign); parts != nil {
			return strings.TrimSpace(sign), parts
		}
	}
	return "", nil
}

func separate(text, sign string) []string {
	if !strings.Contains(text, sign) {
		return nil
	}
	parts := strings.Split(text, sign)
	for i, p := range parts {
		if parts[i] = strings.TrimSpace(p); !isCode(parts[i]) {
			return nil
		}
	}
	return parts
}

// several gives the codes of a cell that holds several.
func several(text string) []string {
	_, parts := Separate(text)
	return parts
}
