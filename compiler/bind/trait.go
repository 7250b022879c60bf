package bind

import (
	"errors"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// yearTrait is the name under which a Traits row says how to tell the model year.
const yearTrait = "years"

func (b *binder) traits() {
	b.headers(schema.Traits)
	type key struct {
		trait, value string
		platform     *model.Platform
	}
	said := map[key]model.Tell{}
	names := map[key]string{}
	where := map[key]cell.Place{}
	b.each(schema.Traits, func(r row) {
		platform, ok := b.traitPlatform(r)
		if !ok {
			if name, kind := r.name("Trait"), traitKind(r.word("Kind")); kind.OnLine() && name != "" {
				b.trait(r, name) // only where its values end is not known
			}
			return
		}
		tell := model.Tell{Platform: platform, Text: r.text("How to tell"), Picture: r.picture(), At: r.at("How to tell")}
		tell.Effort, _ = r.whole("Effort")
		name := r.name("Trait")
		k := key{word.Fold(name), word.Fold(r.name("Value")), platform}
		if old, twice := said[k]; twice {
			if old.Text != tell.Text || old.Picture.Name != tell.Picture.Name || old.Effort != tell.Effort || !sameCalled(names[k], r.text(alsoCalled)) {
				b.twice("the value", strings.TrimSpace(name+" "+r.name("Value")), where[k], r.at("Value"))
			}
			return
		}
		said[k], where[k], names[k] = tell, r.at("Value"), r.text(alsoCalled)
		switch {
		case k.trait == "":
		case k.trait == yearTrait:
			b.cat.YearTell = append(b.cat.YearTell, tell)
			b.cat.YearCalled = append(b.cat.YearCalled, b.called(r, nil)...)
		default:
			b.traitValue(r, b.trait(r, name), tell)
		}
	})
	b.clashes()
	b.sharedNames()
	b.otherMeasures()
}

func (b *binder) traitPlatform(r row) (*model.Platform, bool) {
	name := r.name("Platform")
	if name == "" || word.Fold(name) == "any" {
		return nil, true
	}
	p, ok := b.lexicon.Platforms.Find(name)
	if !ok {
		b.unknown(finding.ReferenceUnknown, schema.Platforms, "platform", name, &b.lexicon.Platforms, r.at("Platform"))
	}
	return p, ok
}

// trait finds the row's trait, or declares it: its first row says its kind.
func (b *binder) trait(r row, name string) *model.Trait {
	if t, ok := b.lexicon.Traits.Find(name); ok {
		if k := r.word("Kind"); k != "" && traitKind(k) != t.Kind {
			b.twice("the kind of trait", t.Name, t.At, r.at("Kind"))
		}
		if t.Question == "" {
			t.Question = r.text("Question")
		}
		return t
	}
	t := &model.Trait{Index: len(b.cat.Traits), Name: name, Kind: traitKind(r.word("Kind")),
		Question: r.text("Question"), Picture: r.picture(), Effort: 1, At: r.at("Trait")}
	if n, ok := r.whole("Effort"); ok && n >= 1 && n <= 5 {
		t.Effort = n
	}
	b.cat.Traits = append(b.cat.Traits, t)
	b.lexicon.Traits.Add(name, t)
	return t
}

// traitKind gives the kind by its word; choice where there is none.
func traitKind(word string) model.TraitKind {
	for _, k := range model.TraitKinds() {
		if k.String() == word {
			return k
		}
	}
	return model.Choice
}

// traitValue adds the row's value, or the row's text to a value that is there.
func (b *binder) traitValue(r row, t *model.Trait, tell model.Tell) {
	if t.Kind.OnLine() {
		t.Called = append(t.Called, b.called(r, nil)...)
		b.traitExtent(r, t, tell)
		return
	}
	name := r.name("Value")
	if name == "" {
		return // the schema says that it is required
	}
	if word.Fold(name) == "any" && r.text(alsoCalled) != "" {
		b.wholeTrait(r, t, tell)
		return
	}
	if word.Fold(name) == "any" || word.Fold(name) == "n/a" {
		b.fail(finding.ConditionMalformed, r.at("Value"), "%q cannot be the name of a value: in conditions it means any value, or that the trait does not apply", name)
		return
	}
	i, ok := b.lexicon.Values(t).Find(name)
	if !ok {
		v := &model.Value{Name: name, Picture: tell.Picture, At: r.at("Value")}
		if t.Kind == model.Size && !b.traitSize(r, t, v) {
			return
		}
		i = len(t.Values)
		t.Values = append(t.Values, v)
		b.lexicon.Values(t).Add(name, i)
	}
	if tell.Text != "" || tell.Picture.Name != "" || tell.Effort > 0 && tell.Platform != nil {
		t.Values[i].Tell = append(t.Values[i].Tell, tell)
	}
	t.Values[i].Called = append(t.Values[i].Called, b.called(r, tell.Platform)...)
}

// wholeTrait reads a row about a trait whatever its value: what else the trait is called.
func (b *binder) wholeTrait(r row, t *model.Trait, tell model.Tell) {
	t.Called = append(t.Called, b.called(r, nil)...)
	if tell.Text != "" || tell.Picture.Name != "" || tell.Effort > 0 && tell.Platform != nil {
		t.Tell = append(t.Tell, tell)
	}
}

// traitSize reads the value of a size trait. It reports false where the value is
// another one of the same magnitude, which is declared already.
func (b *binder) traitSize(r row, t *model.Trait, v *model.Value) bool {
	size, err := b.size(r, "Value")
	if err != nil || !size.Known() {
		return true // a value that equals no size, and says so
	}
	v.Size = size
	for _, old := range t.Values {
		if old.Size.Num != nil && old.Size.Equal(size) {
			b.twice("the size", v.Name, old.At, v.At)
			return false
		}
	}
	b.mixedTrait(t, v)
	return true
}

// mixedTrait reports a trait in both systems at its first value of the other one.
func (b *binder) mixedTrait(t *model.Trait, v *model.Value) {
	var first *model.Value
	for _, old := range t.Values {
		switch {
		case old == v || old.Size.Num == nil:
		case first == nil:
			first = old
		case old.Size.Unit != first.Size.Unit:
			return // that value was the first
		}
	}
	if first != nil && first.Size.Unit != v.Size.Unit {
		b.mixedSizes(first.At, v.At, t.Name)
	}
}

func (b *binder) mixedSizes(first, other cell.Place, what string) {
	b.mixed(first, other, what+" holds sizes in inches and in millimetres", ", unless the lines really are of both")
}

// mixed reports a column in both systems by a cell of each.
func (b *binder) mixed(first, other cell.Place, message, unless string) {
	b.Report(&finding.Finding{Code: finding.SizeMixedUnits, Severity: finding.Warning,
		Message: message, Cells: finding.At(first, other), Fix: "write all of them in one system" + unless})
}

// size reads a cell that holds a size; a blank or broken one gives the size that is not
// known. The error has been reported.
func (b *binder) size(r row, column string) (measure.Size, error) {
	f, ok := r.field(column)
	if !ok || f.Broken {
		return measure.Size{}, nil
	}
	size, err := b.parseSize(f, r.t.Columns[f.Column].Unit)
	switch {
	case errors.Is(err, measure.ErrUnitless):
		b.fail(finding.SizeUnitless, r.place(f), "%s", err)
	case err != nil && word.Fold(f.Text) == "n/a":
		b.fail(finding.SizeMalformed, r.place(f), "%q is no size; leave %s blank where there is none", f.Text, column)
	case err != nil:
		b.fail(finding.SizeMalformed, r.place(f), "%s", err)
	case !b.cat.Sizes.Admits(size):
		b.unusual(r.place(f), size)
	}
	return size, err
}

func (b *binder) parseSize(v table.Field, unit string) (measure.Size, error) {
	text := strings.TrimSpace(v.Text)
	if v.Kind == sheets.Number && b.sizes().Comma {
		text = strings.ReplaceAll(text, ".", ",")
	}
	u, known := measure.ParseUnit(unit)
	if !known {
		u = measure.NoUnit
	}
	return measure.ParseSizeIn(text, u, b.sizes())
}

// clashes reports traits that are named like a column of the sheets that take
// conditions: a header could not tell the two apart.
func (b *binder) clashes() {
	for _, t := range b.cat.Traits {
		if kind := clash(t.Name); kind != "" {
			b.fail(finding.ConditionMalformed, t.At, "a trait cannot be called %q, since %s sheets have a column of that name; give the trait another name", t.Name, schema.Title(kind))
		}
	}
}

// clash gives the kind of sheet that has a column of the name, "" for none.
func clash(name string) string {
	for _, kind := range schema.Kinds() {
		if _, has := schema.Find(kind, name); has && schema.FurtherOf(kind).Traits {
			return kind
		}
	}
	return ""
}
