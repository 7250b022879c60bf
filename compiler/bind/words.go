package bind

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Words reads what people write about a catalogue that has been bound, by the
// rules of cells: names folded, sizes by magnitude, lists, `not`, `from` and `to`. Every
// error is a sentence that says what to write instead.
type Words struct {
	cat        *model.Catalogue
	lexicon    *lexicon.Lexicon
	complaints lexicon.Names[[]*model.Complaint]
	on         map[*model.Platform]*Words // see On; nil: as in the sheets
}

// NewWords reads words as the sheets of the catalogue say them.
func NewWords(cat *model.Catalogue) *Words { return words(cat, lexicon.Of(cat)) }

func words(cat *model.Catalogue, l *lexicon.Lexicon) *Words {
	w := &Words{cat: cat, lexicon: l}
	for _, rows := range model.Named(cat.Complaints) {
		w.complaints.Add(rows[0].Name, rows)
	}
	return w
}

// Outside reads words as people write them who do not keep the sheets: also by what platforms,
// traits and values are called besides.
func Outside(cat *model.Catalogue) *Words {
	w := words(cat, lexicon.Outside(cat, nil))
	w.on = map[*model.Platform]*Words{}
	return w
}

// On gives the words as they are used of a platform, where a value may be called what another one
// is called elsewhere; nil for no platform in particular.
func (w *Words) On(p *model.Platform) *Words {
	if w.on == nil || p == nil || !calledOn(w.cat) {
		return w
	}
	own, ok := w.on[p]
	if !ok {
		own = &Words{cat: w.cat, lexicon: w.lexicon.OutsideOn(w.cat, p), complaints: w.complaints}
		w.on[p] = own
	}
	return own
}

// calledOn tells whether a value is called something on one platform only.
func calledOn(cat *model.Catalogue) bool {
	for _, t := range cat.Traits {
		for _, v := range t.Values {
			if slices.ContainsFunc(v.Called, func(c model.Called) bool { return c.Platform != nil }) {
				return true
			}
		}
	}
	return false
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
	return find(&w.lexicon.Platforms, "platform", name)
}

// Trait finds a trait by name.
func (w *Words) Trait(name string) (*model.Trait, error) {
	return find(&w.lexicon.Traits, "trait", name)
}

// Position finds a position by name.
func (w *Words) Position(name string) (*model.Position, error) {
	return find(&w.lexicon.Positions, "position", name)
}

// Complaint finds the rows of what a driver says, by its name, in the order in which their places are
// looked at.
func (w *Words) Complaint(name string) ([]*model.Complaint, error) {
	if len(w.cat.Complaints) == 0 {
		return nil, fmt.Errorf("the catalogue has no Complaints sheet, or no row on it, so there is no complaint %q", name)
	}
	return find(&w.complaints, "complaint", name)
}

// Part finds a declared part or kit by number.
func (w *Words) Part(number string) (*model.Part, error) {
	if p, ok := w.lexicon.Part(number); ok {
		return p, nil
	}
	why, _ := w.lexicon.NoPart(number)
	return nil, errors.New(why)
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
		for _, r := range w.cat.References {
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

func find[T any](n *lexicon.Names[T], what, name string) (T, error) {
	v, ok := n.Find(name)
	if !ok {
		return v, errors.New(n.Missed(what, name))
	}
	return v, nil
}

// Platforms reads a Platform cell: nil for any.
func (w *Words) Platforms(text string) ([]*model.Platform, error) {
	on, faults := w.lexicon.On(text)
	var why []string
	for _, bad := range faults {
		if bad.Flaw == lexicon.Undeclared {
			bad.Says = w.lexicon.Platforms.Missed("platform", bad.Name)
		}
		why = append(why, bad.Says)
	}
	return on, wrong(why)
}

// Years reads a Years cell: nil for any.
func (w *Words) Years(text string) (*model.Years, error) {
	years, why := lexicon.ReadYears(text)
	if why != "" {
		return nil, errors.New(why)
	}
	return years, nil
}

// Values reads a cell under a trait, as it reads outside Vehicles; false where it
// restricts nothing.
func (w *Words) Values(t *model.Trait, text string) (model.TraitSet, bool, error) {
	c := w.lexicon.Condition(t, text)
	switch {
	case c.Fault.Flaw == lexicon.Undeclared:
		return model.TraitSet{}, false, errors.New(w.lexicon.Values(t).Missed("value of "+t.Name, c.Fault.Name))
	case !c.Reads():
		return model.TraitSet{}, false, errors.New(c.Fault.Says)
	case c.Any:
		return model.TraitSet{}, false, nil
	}
	return model.TraitSet{Trait: t, Values: c.Set, Line: c.Line}, true, nil
}

// Outside is an error where a cell under a trait on a line names values that none of some
// platforms has; what it leaves out is not looked at.
func (w *Words) Outside(t *model.Trait, text string, on []*model.Platform) error {
	if !t.Kind.OnLine() {
		return nil
	}
	c := w.lexicon.Condition(t, text)
	said := c.Outside(t, on)
	if said.Message == "" {
		return nil
	}
	return fmt.Errorf("%s; %s", said.Message, said.Instead)
}

// Fits reads a fitment cell. Numbers that nothing declares stand for parts to come;
// unknown says of each what its finding would.
func (w *Words) Fits(text string) (fits *model.Fits, unknown []string, err error) {
	c := w.lexicon.Fits(text)
	var why []string
	for _, number := range c.Unknown {
		if bad, ok := w.lexicon.Mangled(number); ok {
			why = append(why, bad.Says)
		} else {
			says, _ := w.lexicon.NoPart(number)
			unknown = append(unknown, says)
		}
	}
	switch bad := c.Fault; bad.Flaw {
	case lexicon.None:
	case lexicon.NoPart:
		unknown = append(unknown, bad.Says)
	case lexicon.Undeclared:
		why = append(why, w.lexicon.Positions.Missed("position", bad.Name))
	default:
		why = append(why, bad.Says)
	}
	if err := wrong(why); err != nil {
		return nil, nil, err
	}
	if c.Fits == nil {
		return nil, nil, fmt.Errorf("%q says nothing that can be fitted", text)
	}
	return c.Fits, unknown, nil
}

// wrong is what is wrong with a text as an error, nil for nothing.
func wrong(why []string) error {
	if len(why) == 0 {
		return nil
	}
	return errors.New(strings.Join(why, "; "))
}
