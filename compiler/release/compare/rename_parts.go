package compare

import (
	"cmp"
	"context"
	"maps"
	"slices"

	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// renameParts joins numbers of which OLD offers only the one and NEW only the other.
func (c *comparison) renameParts(ctx context.Context) error {
	r := &partRenames{c: c, old: offered(c.old.Catalogue), new: offered(c.new.Catalogue)}
	for number := range r.old {
		if _, both := r.new[number]; both {
			delete(r.old, number)
			delete(r.new, number)
		}
	}
	r.take("References say that it was called so", r.former())
	r.take("Replaced by names it", r.replaced())
	undeclared(r.old, c.new.Catalogue)
	undeclared(r.new, c.old.Catalogue)
	roles, err := r.roles(ctx)
	if err != nil {
		return err
	}
	r.take("it is wherever the old one was", roles)
	return nil
}

// partRenames holds the parts that only one release offers and that have no partner yet,
// by their folded numbers.
type partRenames struct {
	c        *comparison
	old, new map[string]*model.Part
}

// offered gives the parts in fitment cells, with what is in kits.
func offered(cat *model.Catalogue) map[string]*model.Part {
	out := map[string]*model.Part{}
	seen := map[*model.Fits]bool{} // cells with one text share their Fits
	for _, f := range cat.Fitments {
		for _, c := range f.Cells {
			if !seen[c.Fits] {
				seen[c.Fits] = true
				c.Fits.Parts(func(p *model.Part) { out[word.Fold(p.Number)] = p })
			}
		}
	}
	return out
}

// undeclared takes the parts away that a catalogue declares.
func undeclared(parts map[string]*model.Part, cat *model.Catalogue) {
	for _, p := range cat.Parts {
		delete(parts, word.Fold(p.Number))
	}
}

// partMatch is an old number and a new one, folded.
type partMatch struct{ old, new string }

// take tells the matches, listed once each, of which neither number is in another one.
func (r *partRenames) take(why string, all map[partMatch]bool) {
	olds, news := map[string]int{}, map[string]int{}
	for m := range all {
		olds[m.old]++
		news[m.new]++
	}
	for _, m := range slices.SortedFunc(maps.Keys(all), comparePartMatches) {
		if olds[m.old] == 1 && news[m.new] == 1 {
			r.c.parts[m.old] = m.new
			r.c.tell(Rename{What: Part, Old: r.old[m.old].Number, New: r.new[m.new].Number, Why: why})
			delete(r.old, m.old)
			delete(r.new, m.new)
		}
	}
}

func comparePartMatches(a, b partMatch) int {
	return cmp.Or(cmp.Compare(a.old, b.old), cmp.Compare(a.new, b.new))
}

// may tells whether the one number can still be a rename of the other.
func (r *partRenames) may(m partMatch) bool { return r.old[m.old] != nil && r.new[m.new] != nil }

// former gives the matches that NEW's References state.
func (r *partRenames) former() map[partMatch]bool {
	out := map[partMatch]bool{}
	for _, ref := range r.c.new.Catalogue.References {
		if ref.Kind != "former" || ref.Part == nil {
			continue
		}
		if m := (partMatch{word.Fold(ref.Number), word.Fold(ref.Part.Number)}); r.may(m) {
			out[m] = true
		}
	}
	return out
}

// replaced gives the matches that Replaced by states, in NEW or else in OLD.
func (r *partRenames) replaced() map[partMatch]bool {
	out := map[partMatch]bool{}
	stated := map[string]bool{}
	for _, cat := range []*model.Catalogue{r.c.new.Catalogue, r.c.old.Catalogue} {
		for _, p := range cat.Parts {
			number := word.Fold(p.Number)
			if by := p.ReplacedBy; by == nil || stated[number] || len(by.Alternatives) != 1 || len(by.Alternatives[0]) != 1 {
				continue
			}
			stated[number] = true
			item := p.ReplacedBy.Alternatives[0][0]
			if m := (partMatch{number, word.Fold(item.Part.Number)}); item.Quantity <= 1 && r.may(m) {
				out[m] = true
			}
		}
	}
	return out
}
