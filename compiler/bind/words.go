package bind

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Words reads what people write about a catalogue outside of its workbooks, by the
// rules of cells: names folded, sizes by magnitude, lists, `not`, `from` and `to`. Every
// error is a sentence that says what to write instead.
type Words struct {
	b    *binder
	why  []string // what was wrong with the text in hand
	news []string // numbers in it that nothing declares
}

// NewWords reads words about a catalogue that has been bound.
func NewWords(cat *model.Catalogue) *Words {
	w := &Words{}
	b := &binder{cat: cat, kinds: map[string][]*table.Table{}, parts: map[string]*model.Part{}}
	b.Report = w.note
	for _, kind := range [...]string{schema.Platforms, schema.Traits, schema.Positions, schema.Parts} {
		// What is not declared is told, as if its sheet were there.
		b.kinds[kind] = []*table.Table{{Headed: true}}
	}
	for _, p := range cat.Platforms {
		b.platformNames.add(p.Name, p)
	}
	for _, t := range cat.Traits {
		b.traitNames.add(t.Name, t)
		b.valueNames = append(b.valueNames, names[int]{})
		for i, v := range t.Values {
			b.valueNames[t.Index].add(v.Name, i)
		}
	}
	for _, p := range cat.Positions {
		b.positionNames.add(p.Name, p)
	}
	for _, p := range cat.Parts {
		b.parts[word.Fold(p.Number)] = p
		b.partList = append(b.partList, p.Number)
	}
	w.b = b
	return w
}

func (w *Words) note(f *finding.Finding) {
	if f.Code == finding.PartUnknown {
		w.news = append(w.news, f.Message)
		return
	}
	w.why = append(w.why, f.Message)
}

// CutColumn cuts `column = value` in two. The name of a column may hold an equals sign
// itself, so the cut is where a column is known before it, else at the first sign.
func CutColumn(text string, known func(string) bool) (column, value string, ok bool) {
	at := strings.IndexByte(text, '=')
	for i := range text {
		if text[i] == '=' && known(text[:i]) {
			at = i
			break
		}
	}
	if at < 0 {
		return "", "", false
	}
	return strings.TrimSpace(text[:at]), strings.TrimSpace(text[at+1:]), true
}

// Platform finds a platform by name.
func (w *Words) Platform(name string) (*model.Platform, error) {
	return find(&w.b.platformNames, "platform", name)
}

// Trait finds a trait by name.
func (w *Words) Trait(name string) (*model.Trait, error) {
	return find(&w.b.traitNames, "trait", name)
}

// Position finds a position by name.
func (w *Words) Position(name string) (*model.Position, error) {
	return find(&w.b.positionNames, "position", name)
}

// Part finds a declared part or kit by number.
func (w *Words) Part(number string) (*model.Part, error) {
	if p, ok := w.b.part(number); ok {
		return p, nil
	}
	return nil, errors.New(w.b.noPart(number))
}

// AnyPart is Part for a number that may also be another number of a part; ref is the row of
// References that says so, nil where the number is the part's own. Spaces and hyphens in
// others' numbers make no difference where one part alone is meant.
func (w *Words) AnyPart(number string) (part *model.Part, ref *model.Reference, err error) {
	if part, err = w.Part(number); err == nil {
		return part, nil, nil
	}
	for _, key := range []func(string) string{word.Fold, squeezed} {
		var parts []string
		for _, r := range w.b.cat.References {
			if r.Part != nil && r.Part.Known && key(r.Number) == key(number) && !slices.Contains(parts, r.Part.Number) {
				ref, parts = r, append(parts, r.Part.Number)
			}
		}
		switch len(parts) {
		case 0:
		case 1:
			return ref.Part, ref, nil
		default:
			return nil, nil, fmt.Errorf("%q is another number of %s; name the one that is meant", number, word.List(parts, "and"))
		}
	}
	return nil, nil, err
}

// squeezed is a number as people type it from a plate: without spaces and hyphens.
func squeezed(number string) string {
	return strings.Map(func(r rune) rune {
		if r == '-' || unicode.IsSpace(r) {
			return -1
		}
		return r
	}, word.Fold(number))
}

func find[T any](n *names[T], what, name string) (T, error) {
	v, ok := n.find(name)
	if !ok {
		return v, missed(what, name, n.list)
	}
	return v, nil
}

func missed(what, name string, list []string) error {
	if len(list) == 0 {
		return fmt.Errorf("%s %q is not declared, and no %s is", what, name, what)
	}
	return fmt.Errorf("no %s is called %q%s", what, name, hint(name, list))
}

// Platforms reads a Platform cell: nil for any.
func (w *Words) Platforms(text string) ([]*model.Platform, error) {
	when := model.When{}
	w.why = nil
	f := table.Field{}
	f.Text = text
	w.b.whenPlatform(row{&table.Table{}, &table.Record{}}, f, &when)
	return when.Platforms, w.fault()
}

// Years reads a Years cell: nil for any.
func (w *Words) Years(text string) (*model.Years, error) {
	years, why := parseYears(text)
	if why != "" {
		return nil, errors.New(why)
	}
	return years, nil
}

// Values reads a cell under a trait, as it reads outside Vehicles; false where it
// restricts nothing.
func (w *Words) Values(t *model.Trait, text string) (model.TraitSet, bool, error) {
	c := w.b.condition(t, text)
	switch {
	case c.name != "":
		return model.TraitSet{}, false, missed("value of "+t.Name, c.name, w.b.valueNames[t.Index].list)
	case c.why != "":
		return model.TraitSet{}, false, errors.New(c.why)
	case c.any:
		return model.TraitSet{}, false, nil
	}
	return model.TraitSet{Trait: t, Values: c.set, Line: c.line}, true, nil
}

// Outside is an error where a cell under a trait on a line names values that none of some
// platforms has; what it leaves out is not looked at.
func (w *Words) Outside(t *model.Trait, text string, on []*model.Platform) error {
	if !t.Kind.OnLine() {
		return nil
	}
	said := outside(t, w.b.condition(t, text), on)
	if said.message == "" {
		return nil
	}
	return fmt.Errorf("%s; %s", said.message, said.instead)
}

// Fits reads a fitment cell. Numbers that nothing declares stand for parts to come;
// unknown says of each what its finding would.
func (w *Words) Fits(text string) (fits *model.Fits, unknown []string, err error) {
	w.why, w.news = nil, nil
	fits = w.b.fits(text, cell.Place{})
	if err := w.fault(); err != nil {
		return nil, nil, err
	}
	if fits == nil {
		return nil, nil, fmt.Errorf("%q says nothing that can be fitted", text)
	}
	return fits, w.news, nil
}

func (w *Words) fault() error {
	if len(w.why) == 0 {
		return nil
	}
	return errors.New(strings.Join(w.why, "; "))
}
