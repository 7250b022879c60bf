package table

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"ferrule/compiler/intake/table/glyph"
)

// What texts hold that were a formula, a number or a date before they came by way of
// another format.
var (
	asFormula = regexp.MustCompile(`^=[A-Za-z0-9$('"+-]`)
	asPower   = regexp.MustCompile(`^\d\.\d+E[+-]\d{2,3}$`)
	asDay     = regexp.MustCompile(`(?i)^(\d{1,2})[-./ ]([a-z]{3,9})\.?$`)
	asMonth   = regexp.MustCompile(`(?i)^([a-z]{3,9})\.?[-./ ]'?((?:19|20)?\d{2})$`)
	asISO     = regexp.MustCompile(`^(\d{4})-(\d{2})-(\d{2})(?:[ T]00:00(?::00(?:\.0+)?)?)?$`)
)

// suspect tells whether one of the forms above is possible at all; it is asked of every
// text.
func suspect(s string) bool {
	switch {
	case s != "" && (s[0] == '=' || s[0] == ' ' || s[len(s)-1] == ' '):
		return true
	case len(s) < 4:
		return false
	case s[0] < '0' || s[0] > '9':
		return isMonth(s)
	case len(s) >= len("2012-05-01") && s[4] == '-' && s[7] == '-':
		return true
	}
	return s[1] == '.' || isMonth(after(s))
}

// after gives what stands behind one or two digits and a sign.
func after(s string) string {
	if s[1] < '0' || s[1] > '9' {
		return s[2:]
	}
	return s[3:]
}

// isMonth tells whether a text begins with the first letters of a month's name.
func isMonth(s string) bool {
	return len(s) >= 3 && monthOf(s[:3]) > 0
}

func (j *judge) text() {
	s := strings.TrimSpace(j.Text)
	switch {
	case !j.role.named():
	case asFormula.MatchString(s):
		j.say(FormulaStale,
			fmt.Sprintf("the cell holds the text %q: a formula that was typed into a cell whose format is text is not calculated", short(s)),
			"set the cell's format to General and type the formula again; or type the value")
		return
	case j.role == code && asPower.MatchString(s):
		j.say(NumberMangled,
			fmt.Sprintf("%q is how a spreadsheet program shortens a long number, and the digits that it left out are lost", s),
			"set the cell's format to text, then type the whole number again")
		return
	case (j.role == years || j.role == size) && suspect(s) && j.textDate(s):
		return
	}
	j.lookAt(s)
}

// lookAt reports what is in a text and not to be seen. Where that depends on the
// alphabets of the whole sheet, it waits until they are known.
func (j *judge) lookAt(s string) {
	asked := false
	what, instead := j.letters(s, func(*unicode.RangeTable) bool { asked = true; return true })
	if asked {
		j.reader.later = append(j.reader.later, foreign{*j, s})
		return
	}
	j.lookalike(s, what, instead)
}

// letters tells what is in a text and not to be seen in a sheet with these alphabets.
func (j *judge) letters(s string, native func(*unicode.RangeTable) bool) (what, instead string) {
	// A sentence is matched with nothing, but a lone word under Note may be the key of a
	// caution.
	named := j.role.named() || j.role == prose && !strings.ContainsFunc(s, unicode.IsSpace)
	return glyph.Text{Name: named, Native: native}.Look(s)
}

func (j *judge) lookalike(s, what, instead string) {
	if what == "" {
		return
	}
	j.typed = []string{instead}
	j.say(Lookalike,
		fmt.Sprintf("%q holds %s", short(seen(s)), what),
		fmt.Sprintf("type %s", short(instead)))
}

// seen takes out of a text what cannot be seen, for a message.
func seen(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsGraphic(r) {
			return r
		}
		return -1
	}, s)
}
