package propose

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"ferrule/compiler/propose/shape"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
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

// tellCondition remarks on a limit that was read as a condition.
func (r *reading) tellCondition(c condition, cells []cell.Pos, says, word string) {
	means := fmt.Sprintf("read as the condition %s = %s: the fit holds for these vehicles alone", c.column, c.says)
	write := fmt.Sprintf("another condition in the row %s of Layouts if it means something else", word)
	if c.drafted {
		means = fmt.Sprintf("it may limit the vehicles, and the catalogue has no trait that it names: a drafted trait %q with Yes and No asks it, and the fit holds for %s alone", c.column, c.says)
		write = fmt.Sprintf("in the row %s of Layouts a condition on a trait of yours, such as Levelling = not Electronic, and no row of Traits for %q; or keep the drafted trait and say under How to tell how to see it", word, c.column)
	}
	r.remark(cells, says, means, write)
}

// hasYears tells whether the rows of the table have years already.
func (r *reading) hasYears() bool {
	return has(r.all, Years) || strings.Contains(r.vehicle.as, "Years") || r.across != nil && strings.Contains(r.across.as, "Years")
}

// sayNotes writes what a column of remarks says: notes where none may limit vehicles, one condition
// where all are about one trait, and else a drafted trait with the texts as its values.
func (r *reading) sayNotes() {
	for _, c := range r.all {
		if c.role == Note && c.Filled > 0 {
			r.notes(c)
		}
	}
}

func (r *reading) notes(c *column) {
	var limits, others []shape.Value
	for _, v := range c.Values {
		if restricts(v.Text) {
			limits = append(limits, v)
		} else {
			others = append(others, v)
		}
	}
	if len(limits) == 0 {
		if !r.taken("Note") {
			r.rule("is", r.where(c), "Note", Likely, "no text in it limits vehicles, as far as its words tell")
			r.remark(places(others), trimmed(others[0].Text), "read as notes, which guides print and which limit nothing", "a condition (a column of its own, or a row say of Layouts) where one does limit the fit")
		}
		return
	}
	conditions, one := r.oneTrait(limits)
	if !one || len(others) > 0 || r.taken(conditions[0].column) {
		r.asValues(c)
		return
	}
	r.rule("is", r.where(c), conditions[0].column, Unsure, conditions[0].why)
	for i, v := range limits {
		r.rule("say", r.where(c), trimmed(v.Text)+" = "+conditions[i].says, Unsure, conditions[i].why)
		r.tellCondition(conditions[i], r.cellsOf(c, v), trimmed(v.Text), "say")
		r.restrict(c, v, conditions[i])
	}
}

// taken tells whether some row of the reading fills a column already.
func (r *reading) taken(column string) bool {
	from := 0
	for i, rule := range r.rules {
		if rule.Word == "table" {
			from = i
		}
	}
	return slices.ContainsFunc(r.rules[from:], func(rule Rule) bool {
		return (rule.Word == "is" || rule.Word == "section" || rule.Word == "across") && word.Fold(rule.As) == word.Fold(column)
	})
}

// oneTrait reads texts as conditions and tells whether all are about one column.
func (r *reading) oneTrait(limits []shape.Value) (out []condition, one bool) {
	one = true
	for _, v := range limits {
		c := r.b.condition(v.Text, r.hasYears())
		one = one && (len(out) == 0 || c.column == out[0].column) && !strings.Contains(trimmed(v.Text), "=")
		out = append(out, c)
	}
	return out, one
}

// asValues makes a drafted trait of a column of remarks, with the texts as they stand as its values.
func (r *reading) asValues(c *column) {
	name := r.b.drafts.free("Restriction")
	r.rule("is", r.where(c), name, Unsure, "its texts may limit which vehicles are meant, each in its own way")
	for _, v := range c.Values {
		cond := condition{column: name, says: v.Text, drafted: true}
		r.restrict(c, v, cond)
		topic := r.b.meaning(v.Text, r.hasYears())
		r.remark(r.cellsOf(c, v), trimmed(v.Text),
			fmt.Sprintf("it may limit the vehicles. It is a value of the drafted trait %q, so the fit holds for vehicles alone of which somebody has answered it%s", name, topic),
			"a column for each thing that such texts are about, with conditions in it, in place of this one; or a row say of Layouts for each text where all are about one trait")
	}
}

// meaning tells what a text names of the catalogue, for a remark; "" for nothing.
func (b *builder) meaning(text string, years bool) string {
	topic, not := topicOf(text)
	found := b.within(topic)
	if len(found) != 1 {
		return ""
	}
	says := found[0].name
	if not {
		says = "not " + says
	}
	return fmt.Sprintf(". Probably it means %s = %s", found[0].trait, says)
}

// restrict drafts what a condition needs on the platforms of the rows that have it.
func (r *reading) restrict(c *column, v shape.Value, cond condition) {
	for row := range r.t.Each {
		if word.Fold(row.At(c.Col)) == word.Fold(v.Text) {
			for _, p := range r.platformsOf(row) {
				r.b.drafts.restricted(cond, p)
			}
		}
	}
}

// cellsOf gives the first cells of a column that say a text, and room for how many there are.
func (r *reading) cellsOf(c *column, v shape.Value) []cell.Pos {
	var out []cell.Pos
	for row := range r.t.Each {
		if word.Fold(row.At(c.Col)) == word.Fold(v.Text) {
			out = append(out, cell.Pos{Row: row.Number, Col: c.Col})
		}
	}
	return out
}

func places(values []shape.Value) []cell.Pos {
	var out []cell.Pos
	for _, v := range values {
		out = append(out, v.At)
	}
	return out
}
