package bind

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// declared gives a binder that knows one trait with the values.
func declared(t require.TestingT, kind model.TraitKind, values ...string) (*binder, *model.Trait) {
	b := &binder{cat: &model.Catalogue{}, valueNames: make([]names[int], 1)}
	trait := &model.Trait{Name: "Trait", Kind: kind}
	for i, name := range values {
		v := &model.Value{Name: name}
		if kind == model.Size {
			size, err := measure.ParseSize(name, b.sizes())
			require.NoError(t, err)
			v.Size = size
		}
		trait.Values = append(trait.Values, v)
		b.valueNames[0].add(name, i)
	}
	return b, trait
}

// listed gives the names of a set, with n/a for Absent.
func listed(trait *model.Trait, set space.Set) []string {
	names, absent := model.TraitSet{Trait: trait, Values: set}.Names()
	if absent {
		names = append(names, "n/a")
	}
	return names
}

func TestCondition(t *testing.T) {
	choice := []string{"Air", "Steel", "not Air", "A, B", "any two", "from here", "Left or right", "Or"}
	ordered := []string{"Low", "Mid", "High"}
	size := []string{"1/2 in", "1/4 in", "1/2 in hose", "3/8 in"}
	for _, c := range []struct {
		kind   model.TraitKind
		values []string
		text   string
		want   string // joined by |
	}{
		{model.Choice, choice, "Air", "Air"},
		{model.Choice, choice, "  aIR ", "Air"},
		{model.Choice, choice, "not  AIR", "not Air"},
		{model.Choice, choice, "A, B", "A, B"},
		{model.Choice, choice, "any two", "any two"},
		{model.Choice, choice, "from here", "from here"},
		{model.Choice, choice, "left  or right", "Left or right"},
		{model.Choice, choice, "Air, Steel", "Air|Steel"},
		{model.Choice, choice, "Steel;Air", "Air|Steel"},
		{model.Choice, choice, "Steel\nAir", "Air|Steel"},
		{model.Choice, choice, "Steel OR air", "Air|Steel"},
		{model.Choice, choice, "Steel, Left or right", "Steel|Left or right"},
		{model.Choice, choice, "Air, not Air", "Air|not Air"},
		{model.Choice, choice, "not Air, Steel", "Steel|not Air"},
		{model.Choice, choice, "not Steel", "Air|not Air|A, B|any two|from here|Left or right|Or|n/a"},
		{model.Choice, choice, "not Steel or any two", "Air|not Air|A, B|from here|Left or right|Or|n/a"},
		{model.Choice, choice, "not not Air", "Air|Steel|A, B|any two|from here|Left or right|Or|n/a"},
		{model.Choice, choice, "N/A", "n/a"},
		{model.Choice, choice, "n/a, Air", "Air|n/a"},
		{model.Choice, choice, "not n/a", "Air|Steel|not Air|A, B|any two|from here|Left or right|Or"},
		{model.Choice, choice, "Air,", "Air"},
		{model.Ordered, []string{"İ", "K", "L"}, "from İ to K", "İ|K"},
		{model.Ordered, ordered, "from Mid", "Mid|High"},
		{model.Ordered, ordered, "to mid", "Low|Mid"},
		{model.Ordered, ordered, "from low to mid", "Low|Mid"},
		{model.Ordered, ordered, "not from Mid", "Low|n/a"},
		{model.Ordered, ordered, "to Low, from High", "Low|High"},
		{model.Size, size, "0.5 in", "1/2 in"},
		{model.Size, size, `1/2"`, "1/2 in"},
		{model.Size, size, "12.7 mm", "1/2 in"},
		{model.Size, size, "12.7 mm hose", "1/2 in hose"},
		{model.Size, size, "to 3/8 in", "1/4 in|3/8 in"},
		{model.Size, size, "from 9.525 mm", "1/2 in|3/8 in"},
		{model.Size, size, "not 1/4 in", "1/2 in|1/2 in hose|3/8 in|n/a"},
	} {
		b, trait := declared(t, c.kind, c.values...)
		got := b.condition(trait, c.text)
		assert.Empty(t, got.why, "%q", c.text)
		assert.Empty(t, got.name, "%q", c.text)
		assert.False(t, got.any, "%q", c.text)
		assert.Equal(t, c.want, strings.Join(listed(trait, got.set), "|"), "%q", c.text)
	}
}

func TestConditionAny(t *testing.T) {
	b, trait := declared(t, model.Choice, "Air", "Steel")
	for _, text := range []string{"", "  ", "any", " ANY "} {
		assert.True(t, b.condition(trait, text).any, "%q", text)
	}
}

func TestConditionRefuses(t *testing.T) {
	for _, c := range []struct {
		kind model.TraitKind
		text string
		code finding.Code
		says string // of the reason, or the name that nothing declares
	}{
		{model.Choice, "Aur", finding.ReferenceUnknown, "^Aur$"},
		{model.Choice, "Air, Aur", finding.ReferenceUnknown, "^Aur$"},
		{model.Choice, "not", finding.ConditionMalformed, "stands alone"},
		{model.Choice, "Air, any", finding.ConditionMalformed, "any stands alone"},
		{model.Choice, "Air, not Steel", finding.ConditionMalformed, `write "Air" where only those named are meant, or "not Steel"`},
		{model.Choice, ",", finding.ConditionMalformed, "names no value"},
		{model.Choice, "from Air", finding.ConditionMalformed, "order"},
		{model.Ordered, "from Steel to Air", finding.ConditionMalformed, "runs backwards; write from Air to Steel"},
		{model.Ordered, "from Stool", finding.ReferenceUnknown, "^Stool$"},
		{model.Ordered, "to Stool", finding.ReferenceUnknown, "^Stool$"},
	} {
		b, trait := declared(t, c.kind, "Air", "Steel")
		got := b.condition(trait, c.text)
		assert.Equal(t, c.code, got.code, "%q", c.text)
		assert.Regexp(t, c.says, got.why+got.name, "%q", c.text)
		assert.Nil(t, got.set)
	}
	b, trait := declared(t, model.Size, "1/4 in", "1/2 in")
	assert.Equal(t, finding.SizeUnitless, b.condition(trait, "1/2").code)
	assert.Equal(t, "3/4 in", b.condition(trait, "3/4 in").name)
}

// TestConditionReadBack writes sets of values as lists, in any order, spelling and with
// any separator, and reads them again.
func TestConditionReadBack(t *testing.T) {
	values := []string{"Air", "Steel", "not Air", "any two", "from here", "to there", "none", "12", "n"}
	b, trait := declared(t, model.Choice, values...)
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfNDistinct(rapid.SampledFrom(append(slices.Clone(values), "n/a")), 1, -1, rapid.ID[string]).Draw(t, "values")
		var want space.Set
		for _, n := range names {
			i, ok := b.value(trait, n)
			if !ok {
				i = trait.Absent()
			}
			want = want.Or(space.SetOf(i))
		}
		words := slices.Clone(names)
		for i := range words {
			if rapid.Bool().Draw(t, "upper") {
				words[i] = strings.ToUpper(words[i])
			}
		}
		text := strings.Join(words, rapid.SampledFrom([]string{",", "; ", "\n", " or ", " OR "}).Draw(t, "separator"))
		// A list that begins with the value `not Air` is that list, with or without not.
		if not := rapid.Bool().Draw(t, "not"); not && !slices.Contains(names, "Air") {
			text, want = "not "+text, want.Not(len(values)+1)
		}
		got := b.condition(trait, text)
		require.Empty(t, got.why+got.name, "%q", text)
		require.True(t, got.set.Equal(want), "%q: %s, want %s", text, got.set, want)
	})
}

// TestStretches holds from and to against the order of the values.
func TestStretches(t *testing.T) {
	b, trait := declared(t, model.Size, "1/2 in", "1/4 in", "20 mm", "3/8 in", "6 mm", "10 mm hose")
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.IntRange(0, len(trait.Values)-1).Draw(t, "from")
		v := trait.Values[i]
		up, down := b.condition(trait, "from "+v.Name), b.condition(trait, "to "+v.Name)
		require.Empty(t, up.why+up.name+down.why+down.name)
		require.True(t, up.set.And(down.set).Equal(space.SetOf(i)), "from and to %s share %s", v.Name, up.set.And(down.set))
		for j, o := range trait.Values {
			same := o.Size.Line == v.Size.Line
			require.Equal(t, same && o.Size.MM().Cmp(v.Size.MM()) >= 0, up.set.Has(j), "from %s: %s", v.Name, o.Name)
			require.Equal(t, same && o.Size.MM().Cmp(v.Size.MM()) <= 0, down.set.Has(j), "to %s: %s", v.Name, o.Name)
		}
		require.False(t, up.set.Has(trait.Absent()) || down.set.Has(trait.Absent()))
	})
}

func TestConditionNeverPanics(t *testing.T) {
	pieces := rapid.SampledFrom([]string{"Low", "High", "not", "any", "n/a", "from", "to", "or", " ", ",", ";", "\n", "1/2 in", "é", "\x00", "İ"})
	for _, kind := range []model.TraitKind{model.Choice, model.Ordered} {
		b, trait := declared(t, kind, "Low", "High", "not Low", "İ")
		rapid.Check(t, func(t *rapid.T) {
			text := strings.Join(rapid.SliceOfN(pieces, 0, 10).Draw(t, "pieces"), "")
			got := b.condition(trait, text)
			bad := got.why != "" || got.name != ""
			require.Equal(t, bad || got.any, got.set.IsEmpty(), "%q: a condition is any, a set or refused", text)
		})
	}
}

// TestBrokenCellSaysNothing holds that a cell which shows an error, and has been told, names no
// trait and no value: the row is set aside, and it is not taken for a blank cell, which is any.
func TestBrokenCellSaysNothing(t *testing.T) {
	b, trait := declared(t, model.Choice, "Air", "Steel")
	b.Report = func(f *finding.Finding) { t.Errorf("told besides: %s", f.Message) }
	r := row{&table.Table{Columns: []table.Column{{}}}, &table.Record{}}
	var w model.When
	b.whenTrait(r, table.Field{Broken: true}, trait, &w)
	assert.True(t, w.SetAside)
	assert.Empty(t, w.Traits)
	said := b.vehicleSet(r, trait, table.Field{Broken: true}, &w)
	assert.True(t, said.Values.IsEmpty())
}
