package bind

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// votes counts what the cells of one column could be read as.
type votes struct {
	filled, parts, years int
	traits               []int // by the trait's index
}

// most tells whether more than half of the cells speak for something.
func (v *votes) most(n int) bool { return 2*n > v.filled }

// byCells looks at what stands under a column: the values of a trait, numbers of parts,
// model years. What the letters of its heading speak for goes before.
func (b *binder) byCells(m *meaning, t *table.Table, c table.Column) {
	v := b.votes(t, slices.IndexFunc(t.Columns, func(x table.Column) bool { return x.At == c.At }))
	if v.filled == 0 {
		return
	}
	m.parts = v.most(v.parts)
	if len(m.names) > 0 {
		if m.names[0] == "Years" {
			b.yearColumns(m, t, c)
			m.why = ""
		}
		return
	}
	switch traits := b.voted(t, v); {
	case m.parts:
		m.why = "most cells under it say what is fitted"
		if len(b.familiesUnder(t, c)) > 0 {
			m.why = "most cells under it are numbers of parts"
		}
		if m.position = b.byFamily(t, c); m.position != nil && opposed(c.Name, m.position.Name) {
			m.position = nil
		} else if m.position != nil {
			m.names = []string{m.position.Name}
			m.why += " as they are fitted at " + m.position.Name
		}
	case v.most(v.years) && (len(traits) == 0 || !slices.ContainsFunc(traits, func(i int) bool { return v.traits[i] > v.years })):
		b.yearColumns(m, t, c)
	case len(traits) > 0:
		for _, i := range traits {
			m.names = append(m.names, b.cat.Traits[i].Name)
		}
		m.trait = b.cat.Traits[traits[0]]
		m.why = fmt.Sprintf("most cells under it are values of %s", word.List(m.names, "or of"))
	}
}

// byVacancy takes a column of a Fitment sheet that says what is fitted for that of a position
// which the sheet has no column for: one whose name holds the words of its heading, or any.
func (b *binder) byVacancy(m *meaning, t *table.Table, c table.Column) {
	if t.Kind != schema.Fitment || len(m.names) > 0 {
		return
	}
	if p := b.byOneWord(t, c.Name); p != nil {
		m.position, m.names = p, []string{p.Name}
		return
	}
	if m.parts {
		m.maybe = b.vacancies(t, b.familiesUnder(t, c))
	}
	if len(m.maybe) == 1 && !opposed(c.Name, m.maybe[0].Name) {
		m.position, m.names = m.maybe[0], []string{m.maybe[0].Name}
		m.why += fmt.Sprintf(", and of the positions that the sheet has no column for they belong at %s alone", m.maybe[0].Name)
	}
}

// voted gives the traits of which most cells of a column are values, those with most of
// them, but for traits that have a column on the sheet.
func (b *binder) voted(t *table.Table, v *votes) []int {
	var out []int
	for i, n := range v.traits {
		if n == 0 || !v.most(n) || b.has(t, b.cat.Traits[i].Name) {
			continue
		}
		if len(out) > 0 && n > v.traits[out[0]] {
			out = out[:0]
		}
		if len(out) == 0 || n == v.traits[out[0]] {
			out = append(out, i)
		}
	}
	return out
}

// yearColumns takes the column, and all others of model years that mean nothing, for the
// years of the rows.
func (b *binder) yearColumns(m *meaning, t *table.Table, c table.Column) {
	for i, o := range t.Columns {
		_, isTrait := b.lexicon.Traits.Find(o.Name)
		if o.Known || isTrait || o.Unit != "" {
			continue
		}
		if v := b.votes(t, i); o.At == c.At || v.filled > 0 && v.most(v.years) {
			m.years = append(m.years, o.At)
		}
	}
	if b.has(t, "Years") && len(m.years) == 1 && len(m.names) == 0 {
		m.years = nil
		return
	}
	m.names, m.why = []string{"Years"}, "most cells under it are model years"
}

// yearsOfFacts tells whether a column of a Facts sheet, where any further column is a fact,
// holds model years and nothing else, and reports it like one that means nothing. A sheet
// with a column Years may have a fact that reads like years: there two of them must say
// in their headings that they are the ends of a range.
func (b *binder) yearsOfFacts(t *table.Table, column int) bool {
	only := func(i int) bool {
		c := t.Columns[i]
		if _, isTrait := b.lexicon.Traits.Find(c.Name); c.Known || isTrait || c.Unit != "" {
			return false
		}
		v := b.votes(t, i)
		return v.filled > 0 && v.years == v.filled
	}
	if !only(column) {
		return false
	}
	if b.has(t, "Years") {
		ends := 0
		for i, c := range t.Columns {
			if yearEnd(c.Name) && only(i) {
				ends++
			}
		}
		if ends < 2 || !yearEnd(t.Columns[column].Name) {
			return false
		}
	}
	b.unknownHeader(t, t.Columns[column], "")
	return true
}

// yearEnd tells whether a heading says that it holds one end of a range of years.
func yearEnd(name string) bool {
	return slices.ContainsFunc(nameWords(name), func(w string) bool {
		switch w {
		case "from", "to", "start", "end", "first", "last", "since", "until", "thru", "through", "begin", "beginning", "year", "years", "my":
			return true
		}
		return false
	})
}

func (b *binder) votes(t *table.Table, column int) *votes {
	v := &votes{traits: make([]int, len(b.cat.Traits))}
	known := map[string]func(){}
	for i := range t.Records {
		for k := range t.Records[i].Fields {
			f := &t.Records[i].Fields[k]
			if int(f.Column) != column || f.Broken {
				continue
			}
			vote, ok := known[f.Text]
			if !ok {
				vote = b.vote(v, t, strings.TrimSpace(f.Text))
				known[f.Text] = vote
			}
			vote()
		}
	}
	return v
}

// vote gives what a cell with this text adds.
func (b *binder) vote(v *votes, t *table.Table, text string) func() {
	if folded := word.Fold(text); folded == "any" || folded == "n/a" || folded == "" {
		return func() {} // it says nothing of what the column is
	}
	var traits []int
	for i, tr := range b.cat.Traits {
		if b.lexicon.MayBe(tr, text) {
			traits = append(traits, i)
		}
	}
	years, why := lexicon.ReadYears(text)
	isYears := why == "" && years != nil
	part := false
	if t.Kind == schema.Fitment && len(traits) == 0 && !isYears {
		part = b.offers(text)
	}
	return func() {
		v.filled++
		for _, i := range traits {
			v.traits[i]++
		}
		if isYears {
			v.years++
		}
		if part {
			v.parts++
		}
	}
}

// outspoken is what a fitment cell says, and nothing else, where it offers no part.
var outspoken = regexp.MustCompile(`(?i)^\s*(none|planned|ask)\s*(:|$)`)

// offers tells whether a text is a fitment cell that offers parts which are declared, or says
// outright why it offers none.
func (b *binder) offers(text string) bool {
	c := b.lexicon.Fits(text)
	return c.Sound() && c.Fits.With == nil && (c.Fits.Outcome == model.Fitted || outspoken.MatchString(text))
}
