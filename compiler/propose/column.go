package propose

import (
	"strings"
	"unicode"

	"ferrule/compiler/propose/shape"
	"ferrule/schema/word"
)

// column is a column of a table with what it is taken for.
type column struct {
	*shape.Column
	role Role
	name string // of a trait, of a position or of a property; "" for other roles
	sure Sure
	why  string
}

func (c *column) is(role Role, name string, sure Sure, why string) {
	c.role, c.name, c.sure, c.why = role, name, sure, why
}

// whole gives all headings over the column, from the top down, each once.
func (c *column) whole() string {
	var out []string
	for _, h := range c.Heads {
		if h != "" && (len(out) == 0 || word.Fold(out[len(out)-1]) != word.Fold(h)) {
			out = append(out, h)
		}
	}
	return strings.Join(out, " ")
}

// measured tells columns of sizes, and of numbers under a unit in brackets.
func (c *column) measured() bool {
	_, unit, ok := strings.Cut(c.Head(), "[")
	if !ok {
		_, unit, ok = strings.Cut(c.Head(), "(")
	}
	return c.Share(shape.Size) >= 0.6 || ok && len(unit) <= 8 && c.Share(shape.Number, shape.Size) >= 0.6
}

// openYears tells the headings of years that begin or end something.
func openYears(head string) bool {
	switch plainHead(head) {
	case "from", "to", "start", "end", "from year", "to year", "year from", "year to", "first year", "last year", "begin", "until":
		return true
	}
	return false
}

// trailing tells how many of a column's texts have years behind a name, from 0 to 1.
func trailing(c *column) float64 {
	n := 0
	for _, v := range c.Values {
		if _, _, ok := shape.TrailingYears(v.Text); ok {
			n++
		}
	}
	return float64(n) / float64(max(len(c.Values), 1))
}

func has(all []*column, r Role) bool {
	for _, c := range all {
		if c.role == r {
			return true
		}
	}
	return false
}

// the gives the first column of a role; nil for none.
func the(all []*column, r Role) *column {
	for _, c := range all {
		if c.role == r {
			return c
		}
	}
	return nil
}

// once leaves a role that a row has once to the column that is surest of it, the first of several.
func once(all []*column) {
	for _, r := range []Role{PartNo, Name, Family, Place, Platform, Years, Maker, Quantity, Running} {
		var best *column
		for _, c := range all {
			if c.role == r && (best == nil || c.sure > best.sure) {
				best = c
			}
		}
		for _, c := range all {
			if c.role == r && c != best {
				c.is(Unclear, "", Unsure, "another column is taken for the same")
			}
		}
	}
}

// placeName makes the name of a position of the headings over it: Front, Damper becomes Front damper.
func placeName(heads []string) string {
	var out []string
	for _, h := range heads {
		if h = trimmed(h); len(strings.Fields(h)) > 1 || len(h) > 4 {
			h = spokenCase(h)
		}
		if h == "" || len(out) > 0 && word.Fold(out[len(out)-1]) == word.Fold(h) {
			continue
		}
		if len(out) > 0 && len(h) > 1 && h[1] >= 'a' && h[1] <= 'z' {
			h = strings.ToLower(h[:1]) + h[1:]
		}
		out = append(out, h)
	}
	return strings.Join(strings.Fields(strings.Join(out, " ")), " ")
}

// spokenCase writes a text in capitals as others are: FRONT AXLE is Front axle.
func spokenCase(text string) string {
	if text != strings.ToUpper(text) || text == strings.ToLower(text) || strings.ContainsAny(text, "0123456789") {
		return text
	}
	r := []rune(strings.ToLower(text))
	return string(unicode.ToUpper(r[0])) + string(r[1:])
}
