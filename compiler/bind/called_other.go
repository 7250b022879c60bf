package bind

import (
	"fmt"
	"regexp"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// joining is a word between two names.
var joining = regexp.MustCompile(`(?i)\S (and|&|\+) \S`)

// joins tells whether a name may be two with a word between them.
func joins(name string) bool { return joining.MatchString(name) }

// thing is what a name may be taken for, besides platforms, traits and values of its own trait.
type thing struct {
	words string
	at    cell.Place
}

// otherThings tells of names under Also called that name a thing of another kind: a part, another number of one,
// a position; a trait or a platform under a value; a value or a family under a platform. They come of a cell that
// was copied from elsewhere. A value may be called like the value of another trait, and like a family, on purpose.
func (b *binder) otherThings() {
	general, values, families := b.things()
	for _, p := range b.cat.Platforms {
		for i := range p.Called {
			b.calledAs("the platform "+p.Name, &p.Called[i], general, values, families)
		}
	}
	for _, p := range b.cat.Platforms {
		general.add(p.Name, "the platform "+p.Name, p.At)
	}
	for _, t := range b.cat.Traits {
		for _, v := range t.Values {
			for i := range v.Called {
				if word.Squeeze(v.Called[i].Name) != word.Squeeze(t.Name) {
					b.calledAs(fmt.Sprintf("the value %s of %s", v.Name, t.Name), &v.Called[i], general)
				}
			}
		}
	}
}

// things are what has a name, by names without spaces and hyphens.
type things map[string]thing

func (t things) add(name, words string, at cell.Place) {
	if _, known := t[word.Squeeze(name)]; !known {
		t[word.Squeeze(name)] = thing{words, at}
	}
}

// things gives all that has a name but platforms.
func (b *binder) things() (general, values, families things) {
	general, values, families = things{}, things{}, things{}
	for _, p := range b.cat.Parts {
		general.add(p.Number, "the part "+p.Number, p.At)
		if p.Family != "" {
			families.add(p.Family, "the family "+p.Family, p.At)
		}
	}
	for i := range b.cat.References {
		r := b.cat.References[i]
		general.add(r.Number, "the number "+r.Number+" of References", r.At)
	}
	for _, p := range b.cat.Positions {
		general.add(p.Name, "the position "+p.Name, p.At)
	}
	for _, t := range b.cat.Traits {
		general.add(t.Name, "the trait "+t.Name, t.At)
		for _, v := range t.Values {
			values.add(v.Name, fmt.Sprintf("the value %s of %s", v.Name, t.Name), v.At)
		}
	}
	return general, values, families
}

// calledAs tells of a name that is the name of another thing.
func (b *binder) calledAs(of string, c *model.Called, all ...things) {
	for _, among := range all {
		other, found := among[word.Squeeze(c.Name)]
		if !found {
			continue
		}
		cells := finding.At(c.At)
		if other.at.Sheet != nil {
			cells = append(cells, finding.Cell{Place: other.at})
		}
		b.Report(&finding.Finding{Code: finding.NameShared, Severity: finding.Warning, Cells: cells,
			Message: fmt.Sprintf("%s is also called %q, and that is %s", of, c.Name, other.words),
			Fix:     "take it out of Also called, unless people do say so: whoever looks for one of the two finds both"})
		return
	}
}
