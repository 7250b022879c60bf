package bind

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// sharedWords tells of names that are two in the workbooks and one in a language in which guides are published: there
// nobody could tell which place, trait, value or complaint is meant.
func (b *binder) sharedWords() {
	for _, tag := range b.cat.Settings.Languages {
		in := b.cat.WordingsIn(tag)
		b.sameWords(in, tag, "the positions", namesIn(b.cat.Positions, func(p *model.Position) string { return p.Name }))
		b.sameWords(in, tag, "the traits", namesIn(b.cat.Traits, func(t *model.Trait) string { return t.Name }))
		for _, t := range b.cat.Traits {
			b.sameWords(in, tag, "the values of "+t.Name, namesIn(t.Values, func(v *model.Value) string { return v.Name }))
		}
		b.sameWords(in, tag, "the complaints", namesIn(b.cat.Complaints, func(c *model.Complaint) string { return c.Name }))
	}
}

func namesIn[T any](all []T, name func(T) string) []string {
	out := make([]string, len(all))
	for i := range all {
		out[i] = name(all[i])
	}
	return out
}

// sameWords tells of the names of one list that read alike in a language. A name that is not translated reads as it is.
func (b *binder) sameWords(in model.Wordings, tag, what string, names []string) {
	first := map[string]string{}
	for _, name := range names {
		reads := readAs(in, name)
		other, known := first[word.Fold(reads)]
		if !known {
			first[word.Fold(reads)] = name
			continue
		}
		cells := wordingCells(in, name, other)
		if word.Fold(other) == word.Fold(name) || cells == nil {
			continue
		}
		b.Report(&finding.Finding{Code: finding.NameShared, Severity: finding.Error, Cells: cells,
			Message: fmt.Sprintf("in %s, %s %q and %q are both called %q, so that nobody can tell them apart", tag, what, other, name, reads),
			Fix:     "translate one of the two otherwise"})
	}
}

func readAs(in model.Wordings, name string) string {
	if w := in.Of(name); w != nil {
		return w.Text
	}
	return name
}

// wordingCells gives the cells that translate two names; nil where none does.
func wordingCells(in model.Wordings, name, other string) (cells []finding.Cell) {
	if w := in.Of(name); w != nil {
		cells = append(cells, finding.Cell{Place: w.At})
	}
	if w := in.Of(other); w != nil {
		cells = append(cells, finding.Cell{Place: w.At, Note: "the other"})
	}
	return cells
}
