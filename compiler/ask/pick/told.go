package pick

import (
	"fmt"
	"slices"

	"ferrule/compiler/bind"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Told is what stands under a column of conditions: under Trait, or without one under the column
// "platform" or "years".
type Told struct {
	Column string // "" for a trait
	Trait  *model.Trait
	Text   string
}

// Wrong is something that is told of a vehicle and cannot be read.
type Wrong struct {
	Told
	Why string // a sentence that says what to write
}

// Words gives the words in which questions are read.
func (d *Lookup) Words() *bind.Words { return d.words }

// Told is Query for what stands in columns. Everything that cannot be read is named; then there is
// no query.
func (d *Lookup) Told(all []Told) (*Query, []Wrong) {
	q := &Query{}
	var wrong []Wrong
	refuse := func(t Told, why string) { wrong = append(wrong, Wrong{t, why}) }
	if t, twice := contradiction(all); twice {
		refuse(t, fmt.Sprintf("%s is told twice, and %q is not the same", t.name(), t.Text))
		return nil, wrong
	}
	q.Platform = d.sole()
	for _, t := range all {
		if t.Column != "platform" {
			continue
		}
		p, err := d.words.Platform(t.Text)
		if err != nil {
			refuse(t, err.Error())
			return nil, wrong // what else is told is read in the words of a platform
		}
		q.Platform = p
	}
	if q.Platform == nil {
		refuse(Told{Column: "platform"}, "nothing stands under Platform; write one of "+word.List(platformNames(d.cat), "or"))
		return nil, wrong
	}
	q.When.Platforms = []*model.Platform{q.Platform}
	r := &reading{words: d.words, cat: d.cat}
	for i, t := range all {
		if slices.ContainsFunc(all[:i], func(o Told) bool { return o.Column == t.Column && o.Trait == t.Trait }) {
			continue // the same once more
		}
		var err error
		switch {
		case t.Column == "years":
			if q.When.Years, err = d.words.Years(t.Text); err == nil && q.When.Years != nil && q.When.Years.Not && !slices.ContainsFunc(q.Platform.Years, q.When.Years.Has) {
				err = fmt.Errorf("%q leaves no year of %s", t.Text, q.Platform.Name)
			}
		case t.Trait != nil:
			r.said = []said{{t.Trait, t.Text}}
			err = r.values(q)
		}
		if err != nil {
			refuse(t, err.Error())
		}
	}
	if wrong != nil {
		return nil, wrong
	}
	sortTraits(q.When.Traits)
	return q, nil
}

// sole gives the platform that goes without saying, nil where there are several.
func (d *Lookup) sole() *model.Platform {
	if len(d.cat.Platforms) == 1 {
		return d.cat.Platforms[0]
	}
	return nil
}

// contradiction gives what is told a second time, and otherwise.
func contradiction(all []Told) (Told, bool) {
	for i, t := range all {
		for _, before := range all[:i] {
			if before.Column == t.Column && before.Trait == t.Trait && word.Fold(before.Text) != word.Fold(t.Text) {
				return t, true
			}
		}
	}
	return Told{}, false
}

func (t Told) name() string {
	switch {
	case t.Trait != nil:
		return t.Trait.Name
	case t.Column == "platform":
		return "Platform"
	}
	return "Years"
}
