package mend

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// How people write years that are not how they are read, one piece of a list at a time.
var (
	y          = `((?:19|20)\d\d)`
	my         = `(?:my|model(?: year)?|year|yr|years)\.? ?'?`
	monthName  = `(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?`
	yearOnward = regexp.MustCompile(`^(?:since|from|starting|as of|>=|≥|=>) ?` + y + `(?: ?(?:on|onwards?|up|and up|and later|\+|-|->|→))?$|^` + y + ` ?(?:-|–|—|->|→|>|\.\.+|\+|on|onwards?|up|upwards?|(?:and|&|or) (?:up|on|later|newer|above|after)|(?:-|–|—|to|thru|through|until|till) ?(?:present|pres|current|curr|now|date|today|on|onwards?|open|\?)|to date)$`)
	yearUntil  = regexp.MustCompile(`^(?:-|–|—|up to|upto|until|till|til|thru|through|to|<=|≤|=<|\.\.+) ?` + y + `(?: incl(?:\.|usive)?)?$|^` + y + ` ?(?:(?:and|&|or) (?:earlier|older|before|below|down|prior)|incl\.)$`)
	yearAfter  = regexp.MustCompile(`^(?:after|post|post-|>|later than) ?` + y + `$`)
	yearBefore = regexp.MustCompile(`^(?:before|pre|pre-|<|prior to|earlier than) ?` + y + `$`)
	yearSpan   = regexp.MustCompile(`^(?:from |between )?` + y + ` ?(?:thru|through|until|till|til|up to|to|and|\.\.+|~|->|→|>|_|-|–|—) ?` + y + `(?: incl(?:\.|usive)?)?$`)
	yearPair   = regexp.MustCompile(`^` + y + ` ?[/&] ?` + y + `$`)
	yearShort  = regexp.MustCompile(`^` + y + ` ?([-/–—.]) ?(\d\d)$`)
	yearDigit  = regexp.MustCompile(`^` + y + ` ?[-/–—] ?(\d)$`)
	yearLetter = regexp.MustCompile(`^[12][\doil]{3}(?: ?(?:-|–|—|to) ?[12][\doil]{3}|\+)?$`)
	yearPrefix = regexp.MustCompile(`^(?:my|model years?) ?'?(\d.*)$`)
	yearMonth  = regexp.MustCompile(`^(?:\d{1,2}(?:st|nd|rd|th)? ?[-/. ] ?)?(?:\d{1,2}|` + monthName + `) ?[-/., ] ?(?:\d{1,2}, ?)?` + y + `$|^` + y + ` ?[-/., ] ?(?:\d{1,2}|` + monthName + `)(?: ?[-/. ] ?\d{1,2})?$|^` + monthName + ` ?'?` + y + `$`)
	yearHalf   = regexp.MustCompile(`^` + y + ` ?(?:\.5|,5|½|1/2|-1/2|\.0|,0)$|^(?:early|late|mid|end of|beginning of|start of|q[1-4]|h[12]|spring|summer|autumn|fall|winter)[ -]?(?:of )?` + y + `$|^` + y + `[ -]?(?:\(?(?:early|late|mid|q[1-4]|h[12])\)?)$`)
	yearMarked = regexp.MustCompile(`^(?:` + my + `|c\.? ?|ca\.? ?|circa |about |approx\.? ?|only |~ ?)` + y + `$|^` + y + ` ?(?:\(?` + `(?:my|model year|model|models|only|\?|\*|approx\.?)` + `\)?)$`)
	twoDigits  = regexp.MustCompile(`^'?(\d\d)(?: ?(?:-|–|—|/|to) ?'?(\d\d))?(\+| ?on| ?onwards)?$`)
	serials    = regexp.MustCompile(`^(?:(?:from|to|up to|until|since|before|after) )?(?:vin|ser(?:ial)?|chassis|frame|s/n|sn|no|number|#)[ .:#a-z]*[\w-]*\d[\w -]*\+?$|^(?:(?:from|to|up to|until|since|before|after) )?[a-z]{0,8}[- ]?\d{5,15}(?: ?(?:-|–|—|to) ?[a-z]{0,8}[- ]?\d{4,15})?(?: ?(?:\+|on|onwards))?$|^[a-z]{1,8}[- ]?\d{1,3}(?: ?(?:-|–|to) ?[a-z]{1,8}[- ]?\d{1,6})?$`)
	slipped    = regexp.MustCompile(`^\d{5}$`)
	pieces     = regexp.MustCompile(`\s*[,;\n\r]+\s*|\s+or\s+`)
	ands       = regexp.MustCompile(`\s*[,;\n\r]+\s*|\s+(?:or|and|nor|plus)\s+|\s*[&+]\s+|\s+&\s*|&|/`)
)

// Years says what to write in place of a Years cell that does not read; false where it
// shows nothing of what was meant. reads tells whether a cell reads.
func Years(text string, reads func(string) bool) (Advice, bool) {
	s := strings.ToLower(strings.Join(strings.Fields(strings.NewReplacer("\n", ", ", "\r", "", "’", "'", "‘", "'").Replace(text)), " "))
	var why []string
	if m := yearPrefix.FindStringSubmatch(s); m != nil {
		s, why = m[1], []string{"has more than years in it"}
	}
	if a, ok := yearWord(s); ok {
		return a, true
	}
	not := ""
	if m := first(leaves, s); m != "" {
		s, not = m, "not "
	}
	var said, month []string
	for _, p := range yearPieces(s, not != "", reads) {
		w, reason, odd := yearPiece(p, reads)
		if w == "" {
			return Advice{}, false
		}
		said, why = append(said, w), append(why, reason)
		if odd {
			month = append(month, p)
		}
	}
	if len(said) == 0 {
		return Advice{}, false
	}
	a := Advice{Write: []string{not + strings.Join(distinct(said), ", ")}, Aside: month}
	if !reads(a.Write[0]) {
		return Advice{}, false
	}
	if why = distinct(nonBlank(why)); len(why) == 0 {
		why = []string{"is no list of years as it stands"}
		if not != "" {
			why = []string{"is taken to leave years out, and \"not\" stands once, before the whole list"}
		}
	}
	a.Says = strings.Join(why, ", and ") + "; write " + a.Write[0]
	if other, meant := otherReading(s); other != "" && not == "" && reads(other) {
		a.Says += ", or " + other + " where " + meant + " is meant"
		a.Write = append(a.Write, other)
	}
	if len(month) > 0 {
		a.Says += "; where the date within the year decides, a trait has to say so"
	}
	return a, true
}

func nonBlank(texts []string) []string {
	var out []string
	for _, t := range texts {
		if t != "" {
			out = append(out, t)
		}
	}
	return out
}

// yearWord reads a cell of words and no year.
func yearWord(s string) (Advice, bool) {
	switch f := folded(s); {
	case anything.MatchString(f):
		return Advice{Says: "is no year; write any", Write: []string{"any"}}, true
	case notThere.MatchString(f) && f != "0":
		return Advice{Says: "is no year, and every vehicle has one; write any where the year makes no difference", Write: []string{"any"}}, true
	case notKnown.MatchString(f):
		return saying("is taken to say that the years are not known; write those that they may be, or any")
	case repeats.MatchString(f):
		return saying("is taken to repeat another cell, and each cell is read by itself; write here what that cell says")
	case serials.MatchString(s) && !slipped.MatchString(s) && !yearMonth.MatchString(s):
		return saying("is taken for serial numbers, and Years takes model years such as 2007-2012; write the years here, and put the numbers into a trait if they tell vehicles apart")
	}
	return Advice{}, false
}

// yearPieces cuts a list; where not stood before it, it may stand again.
func yearPieces(s string, not bool, reads func(string) bool) []string {
	whole := func(p string) bool { w, _, _ := yearPiece(p, reads); return w != "" }
	if whole(s) {
		return []string{s}
	}
	var out []string
	for _, p := range split(s, pieces) {
		if p = strings.TrimSpace(p); p == "" {
			continue
		}
		if rest := first(again, p); not && rest != "" {
			p = rest
		}
		if whole(p) {
			out = append(out, p)
			continue
		}
		for _, q := range split(p, ands) {
			if q = strings.TrimSpace(q); q == "" {
				continue
			}
			if rest := first(again, q); not && rest != "" {
				q = rest
			}
			out = append(out, q)
		}
	}
	return out
}

// yearPiece turns one piece of a list into years, with what it was taken for; odd is true
// where it says more than a year.
func yearPiece(p string, reads func(string) bool) (write, why string, odd bool) {
	p = strings.TrimSpace(p)
	year := func(re *regexp.Regexp) int { n, _ := strconv.Atoi(first(re, p)); return n }
	switch {
	case strings.ContainsAny(p, "0123456789") && reads(p):
		return p, "", false
	case yearOnward.MatchString(p):
		return first(yearOnward, p) + "+", "is taken for that year and all later ones", false
	case yearUntil.MatchString(p):
		return "to " + first(yearUntil, p), "is taken for that year and all earlier ones", false
	case yearAfter.MatchString(p):
		return fmt.Sprintf("%d+", year(yearAfter)+1), "is taken for the years after that one", false
	case yearBefore.MatchString(p):
		return fmt.Sprintf("to %d", year(yearBefore)-1), "is taken for the years before that one", false
	case yearHalf.MatchString(p):
		return first(yearHalf, p), "is taken for a part of a year, and a model year is whole", true
	case yearMarked.MatchString(p):
		return first(yearMarked, p), "has more than a year in it", false
	case twoDigits.MatchString(p):
		return twoDigit(twoDigits.FindStringSubmatch(p)), "is taken for years of two digits, and a year has four", false
	}
	if m := yearSpan.FindStringSubmatch(p); m != nil && m[1] <= m[2] {
		return m[1] + "-" + m[2], "is taken for a range of years", false
	}
	if m := yearPair.FindStringSubmatch(p); m != nil {
		return m[1] + ", " + m[2], "is taken for two single years (a range has a hyphen)", false
	}
	if m := yearShort.FindStringSubmatch(p); m != nil {
		if full := m[1][:2] + m[3]; full > m[1] {
			return m[1] + "-" + full, "is taken for a range of years, and a year has four digits", false
		}
	}
	if m := yearDigit.FindStringSubmatch(p); m != nil && m[1][:3]+m[2] > m[1] {
		return m[1] + "-" + m[1][:3] + m[2], "is taken for a range of years, and a year has four digits", false
	}
	if q := strings.NewReplacer("o", "0", "i", "1", "l", "1").Replace(p); q != p && yearLetter.MatchString(p) && reads(q) {
		return q, "has a letter in place of a digit", false
	}
	if yearMonth.MatchString(p) {
		return first(yearMonth, p), "is taken for a month or a day, and Years takes model years", true
	}
	return "", "", false
}

// otherReading gives the years that a piece may mean as well, and what it is then taken for:
// 2003/04 may be a month, 2004/2010 the first and the last of a range, 04/10 a month or two years.
func otherReading(s string) (years, meant string) {
	if m := yearShort.FindStringSubmatch(s); m != nil && m[3] >= "01" && m[3] <= "12" && m[1][:2]+m[3] > m[1] {
		return m[1], "a month"
	}
	if m := yearDigit.FindStringSubmatch(s); m != nil && m[1][:3]+m[2] > m[1] {
		return m[1], "a month"
	}
	if m := yearPair.FindStringSubmatch(s); m != nil && m[1] < m[2] && strings.Contains(s, "/") {
		return m[1] + "-" + m[2], "a range"
	}
	if m := twoDigits.FindStringSubmatch(s); m != nil && m[2] != "" && strings.Contains(s, "/") {
		if m[1] >= "01" && m[1] <= "12" {
			return twoDigit([]string{"", m[2], "", ""}), "a month"
		}
		from, to, _ := strings.Cut(twoDigit(m), "-")
		return from + ", " + to, "a list of two years"
	}
	return "", ""
}

// twoDigit completes years of two digits: those above 30 are of the last century.
func twoDigit(m []string) string {
	full := func(s string) string {
		if s > "30" {
			return "19" + s
		}
		return "20" + s
	}
	from := full(m[1])
	switch {
	case m[2] != "" && full(m[2]) > from:
		return from + "-" + full(m[2])
	case m[2] != "":
		return ""
	case m[3] != "":
		return from + "+"
	}
	return from
}
