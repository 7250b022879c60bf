package propose

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"ferrule/schema"
	"ferrule/schema/word"
)

// condition is what a free text that may limit vehicles is read as.
type condition struct {
	column, says string // as in `Trait = value`
	drafted      bool   // the trait is none of the catalogue's
	why          string
}

// What a limit begins with, or ends with. Common practice, no source.
var (
	negated  = regexp.MustCompile(`(?i)^(?:except(?:ing)?|exc\.?|excl\.?|excluding|not|without|w/o|no)\b[.:,]?\s*(?:(?:for|on|with|w/)\s*)*`)
	affirmed = regexp.MustCompile(`(?i)^(?:only\s+)?(?:with|w/|for|if|on|where fitted with|when fitted with|fits|requires)\s*(?:(?:only|with)\s+)?`)
	onlyEnds = regexp.MustCompile(`(?i)[\s,]+only\.?$`)
	onlyHead = regexp.MustCompile(`(?i)^only\s+`)
	toYear   = regexp.MustCompile(`(?i)^(?:up to|thru|through|until|till|to)\s+(\d{4})$`)
	fromYear = regexp.MustCompile(`(?i)^(?:from|since)\s+(\d{4})$`)
	manyYear = regexp.MustCompile(`^\d{4}\s*[-–]\s*\d{4}$`)
)

// condition reads a text as a condition. Where the rows have years of their own, years are none.
func (b *builder) condition(text string, years bool) condition {
	topic, not := topicOf(text)
	if !years && !not {
		if c, ok := yearsOf(topic); ok {
			return c
		}
	}
	if found := b.within(topic); len(found) == 1 && !strings.ContainsAny(leftOver(topic, found[0].name), "0123456789") {
		c := condition{column: found[0].trait, says: found[0].name, why: "the text names " + word.Quote(found[0].name) + ", a value of " + found[0].trait}
		if not {
			c.says = "not " + c.says
		}
		return c
	}
	c := condition{column: b.drafts.topic(traitName(topic)), says: "Yes", drafted: true,
		why: "the text may limit which vehicles are meant, so a drafted trait asks what it says"}
	if not {
		c.says = "No"
	}
	return c
}

// topicOf gives what a limit is about, and whether it leaves that out.
func topicOf(text string) (topic string, not bool) {
	topic = strings.TrimRight(trimmed(text), ".,;: ")
	if m := negated.FindString(topic); m != "" && len(m) < len(topic) {
		return topic[len(m):], true
	}
	topic = onlyEnds.ReplaceAllString(topic, "")
	for _, start := range []*regexp.Regexp{onlyHead, affirmed} {
		if m := start.FindString(topic); m != "" && len(m) < len(topic) {
			topic = topic[len(m):]
		}
	}
	return topic, false
}

// yearsOf reads a limit that is nothing but years.
func yearsOf(topic string) (condition, bool) {
	c := condition{column: "Years", why: "the text names years"}
	switch {
	case toYear.MatchString(topic):
		c.says = "to " + toYear.FindStringSubmatch(topic)[1]
	case fromYear.MatchString(topic):
		c.says = fromYear.FindStringSubmatch(topic)[1] + "+"
	case manyYear.MatchString(topic):
		c.says = topic
	}
	return c, c.says != ""
}

// leftOver is what a text says besides a name.
func leftOver(text, name string) string {
	folded, name := word.Fold(text), word.Fold(name)
	before, after, _ := strings.Cut(folded, name)
	return before + after
}

// longest is how many letters the name of a drafted trait has at most.
const longest = 60

// traitName makes the name of a trait of a text: no longer than a heading, and no column of a sheet
// that takes conditions. It is "" where nothing is left.
func traitName(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || strings.ContainsRune(`=;,"“”[]`, r) {
			return ' '
		}
		return r
	}, text)
	text = strings.Trim(trimmed(text), ".:-–—*?!' ")
	if r := []rune(text); len(r) > longest {
		text = strings.TrimSpace(string(r[:longest]))
	}
	if text == "" {
		return ""
	}
	first, n := utf8.DecodeRuneInString(text)
	text = string(unicode.ToUpper(first)) + text[n:]
	for _, kind := range schema.Kinds() {
		if _, ok := schema.Find(kind, text); ok {
			return text + " of vehicle"
		}
	}
	return text
}
