package bind

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// meaning is what a column that means nothing was probably meant for.
type meaning struct {
	names    []string // to write instead: one, or several of which one is meant
	why      string   // what speaks for them where their letters do not
	trait    *model.Trait
	position *model.Position
	maybe    []*model.Position // any of them, where position is nil
	parts    bool              // its cells are numbers of parts
	years    []cell.Pos        // the headings that hold model years, where it is one of them
	where    *table.Table
}

// meaning finds out what a column was meant for. open says that nothing else is known of
// it: it may be a position, and its cells may tell.
func (b *binder) meaning(t *table.Table, c table.Column, open bool) meaning {
	m := meaning{where: t}
	free := func(names []string) []string {
		return slices.DeleteFunc(slices.Clone(names), func(n string) bool { return b.has(t, n) })
	}
	near := nearestByWords(c.Name, free(b.lexicon.Traits.List()))
	if near == "" {
		near = nearestByWords(c.Name, b.lexicon.Traits.List()) // the sheet has it, and this one beside it
	}
	if near := word.Nearest(c.Name, free(columnsOf(t.Kind))); near != "" {
		m.names = []string{near}
	}
	if !schema.FurtherOf(t.Kind).Traits {
		return m
	}
	if near != "" && len(m.names) == 0 {
		m.names = []string{near}
		m.trait, _ = b.lexicon.Traits.Find(near)
	}
	if near := nearestByWords(c.Name, free(b.lexicon.Positions.List())); near != "" && len(m.names) == 0 && t.Kind == schema.Fitment && open {
		m.names = []string{near}
		m.position, _ = b.lexicon.Positions.Find(near)
	}
	if open {
		b.byCells(&m, t, c)
		b.byVacancy(&m, t, c)
	}
	return m
}

// has tells whether a sheet has a column of the name.
func (b *binder) has(t *table.Table, name string) bool {
	heads, ok := b.heads[t]
	if !ok {
		heads = map[string]bool{}
		for _, c := range t.Columns {
			heads[word.Fold(c.Name)] = true
		}
		if b.heads == nil {
			b.heads = map[*table.Table]map[string]bool{}
		}
		b.heads[t] = heads
	}
	return heads[word.Fold(name)]
}

// undeclared tells whether nothing that is declared was found, so that the column may be
// that of a name which a missing sheet would declare.
func (m *meaning) undeclared(t *table.Table, c table.Column) bool {
	return m.position == nil && m.years == nil && (len(m.names) == 0 || m.trait != nil && !slices.Contains(columnsOf(t.Kind), m.names[0]))
}

// tell writes down what a column was meant for and what comes of it.
func (m *meaning) tell(f *finding.Finding) {
	choice := word.List(m.names, "or")
	switch {
	case len(m.years) > 1:
		f.Cells = nil
		var heads []string
		for _, at := range m.years {
			f.Cells = append(f.Cells, finding.At(m.where.Place(at))...)
			for _, c := range m.where.Columns {
				if c.At == at {
					heads = append(heads, fmt.Sprintf("%q", c.Name))
				}
			}
		}
		f.Message += "; under " + word.List(heads, "and") + " stand model years"
		f.Fix = "write both ends into one column Years, as 2007-2012; until then the rows with a value under them are set aside"
		return
	case m.why != "":
		f.Message += ", and " + m.why
	case len(m.names) > 0:
		f.Message += fmt.Sprintf(" (did you mean %s?)", choice)
	}
	switch {
	case m.position == nil && m.parts && len(m.names) == 0:
		f.Fix = "nothing under it is read: declare the position on a Positions sheet, or write the name of one that is declared"
	case len(m.names) == 0:
		f.Fix = "nothing under it is read: correct the name, declare it, or move the column to a sheet whose name starts with _"
	case m.trait != nil || m.years != nil:
		f.Fix = fmt.Sprintf("write %s if that is meant; until then the rows with a value under it are set aside", choice)
	default:
		f.Fix = fmt.Sprintf("nothing under it is read: write %s if that is meant", choice)
	}
}

// setAside remembers what a column was meant for, so that its rows or its cells are set
// aside, and what follows from that is counted under the finding.
func (b *binder) setAside(t *table.Table, m meaning, f *finding.Finding) {
	if b.quiet {
		return
	}
	at := f.Cells[0].Place
	b.headings[at] = f
	if m.position != nil || len(m.maybe) > 0 {
		b.Owed.Unread(t.Sheet, f)
	}
	if slices.Equal(m.names, []string{"Precedence"}) {
		b.Owed.Unrank(t.Sheet, f)
	}
	switch {
	case m.trait != nil:
		b.suspects[at] = f
		b.Owed.Named(m.trait, f)
	case m.years != nil:
		for _, pos := range m.years {
			b.suspects[t.Place(pos)] = f
		}
	case m.position != nil:
		b.misnamed[at] = []*model.Position{m.position}
	case len(m.maybe) > 0:
		b.misnamed[at] = m.maybe
	}
}

// nearestByWords gives the name that is like a text word by word: each is a slip of the
// hand or an abbreviation. Front damper and Rear damper are alike by their letters and
// mean two things. It gives "" where none is, or several are.
func nearestByWords(text string, names []string) string {
	var like []string
	for _, n := range names {
		if alikeByWords(text, n) {
			like = append(like, n)
		}
	}
	if len(like) == 1 {
		return like[0]
	}
	return word.Nearest(text, like)
}

func alikeByWords(text, name string) bool {
	a, b := nameWords(text), nameWords(name)
	if len(a) != len(b) {
		return word.Slip(strings.Join(a, ""), []string{strings.Join(b, "")}) != "" && abs(len(a)-len(b)) == 1
	}
	if slices.EqualFunc(a, b, alikeWord) {
		return true
	}
	slices.Sort(a)
	slices.Sort(b)
	return slices.Equal(a, b) // Damper front
}

func abs(n int) int { return max(n, -n) }

func nameWords(s string) []string {
	return strings.FieldsFunc(word.Fold(s), func(r rune) bool { return strings.ContainsRune(" -_./()", r) })
}

// shortened tells whether one word is another one without some of its letters, the first and
// another one kept: Frt, Rr, Dmpr.
func shortened(a, b string) bool {
	if len(a) < 2 || len(a) >= len(b) || a[0] != b[0] {
		return false
	}
	for _, r := range a {
		i := strings.IndexRune(b, r)
		if i < 0 {
			return false
		}
		b = b[i+1:]
	}
	return true
}

// alikeWord tells whether one word is a slip of the hand or an abbreviation of another.
func alikeWord(a, b string) bool {
	switch {
	case a == b:
		return true
	case strings.ContainsAny(a+b, "0123456789"):
		return false
	case len(a) >= 3 && strings.HasPrefix(b, a), shortened(a, b):
		return true
	}
	return len(a) >= 4 && word.Nearest(a, []string{b}) != ""
}
