package lexicon

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// declared gives a lexicon that knows one trait with the values.
func declared(t require.TestingT, kind model.TraitKind, values ...string) (*Lexicon, *model.Trait) {
	x := New(Unknowable{})
	trait := &model.Trait{Name: "Trait", Kind: kind}
	for i, name := range values {
		v := &model.Value{Name: name}
		if kind == model.Size {
			size, err := measure.ParseSize(name, x.Sizes)
			require.NoError(t, err)
			v.Size = size
		}
		trait.Values = append(trait.Values, v)
		x.Values(trait).Add(name, i)
	}
	x.Traits.Add(trait.Name, trait)
	return x, trait
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
		x, trait := declared(t, c.kind, c.values...)
		got := x.Condition(trait, c.text)
		assert.Empty(t, got.Fault.Says, "%q", c.text)
		assert.Empty(t, got.Fault.Name, "%q", c.text)
		assert.False(t, got.Any, "%q", c.text)
		assert.Equal(t, c.want, strings.Join(listed(trait, got.Set), "|"), "%q", c.text)
	}
}

func TestConditionAny(t *testing.T) {
	x, trait := declared(t, model.Choice, "Air", "Steel")
	for _, text := range []string{"", "  ", "any", " ANY "} {
		assert.True(t, x.Condition(trait, text).Any, "%q", text)
	}
}

func TestConditionRefuses(t *testing.T) {
	for _, c := range []struct {
		kind model.TraitKind
		text string
		flaw Flaw
		says string // of the reason, or the name that nothing declares
	}{
		{model.Choice, "Aur", Undeclared, "^Aur$"},
		{model.Choice, "Air, Aur", Undeclared, "^Aur$"},
		{model.Choice, "not", Malformed, "stands alone"},
		{model.Choice, "Air, any", Malformed, "any stands alone"},
		{model.Choice, "Air, not Steel", Malformed, `write "Air" where only those named are meant, or "not Steel"`},
		{model.Choice, ",", Malformed, "names no value"},
		{model.Choice, "from Air", Malformed, "order"},
		{model.Ordered, "from Steel to Air", Malformed, "runs backwards; write from Air to Steel"},
		{model.Ordered, "from Stool", Undeclared, "^Stool$"},
		{model.Ordered, "to Stool", Undeclared, "^Stool$"},
	} {
		x, trait := declared(t, c.kind, "Air", "Steel")
		got := x.Condition(trait, c.text)
		assert.Equal(t, c.flaw, got.Fault.Flaw, "%q", c.text)
		assert.Regexp(t, c.says, got.Fault.Says+got.Fault.Name, "%q", c.text)
		assert.Nil(t, got.Set)
	}
	x, trait := declared(t, model.Size, "1/4 in", "1/2 in")
	assert.Equal(t, Unitless, x.Condition(trait, "1/2").Fault.Flaw)
	assert.Equal(t, "3/4 in", x.Condition(trait, "3/4 in").Fault.Name)
}

// TestConditionReadBack writes sets of values as lists, in any order, spelling and with
// any separator, and reads them again.
func TestConditionReadBack(t *testing.T) {
	values := []string{"Air", "Steel", "not Air", "any two", "from here", "to there", "none", "12", "n"}
	x, trait := declared(t, model.Choice, values...)
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfNDistinct(rapid.SampledFrom(append(slices.Clone(values), "n/a")), 1, -1, rapid.ID[string]).Draw(t, "values")
		var want space.Set
		for _, n := range names {
			i, ok := x.value(trait, n)
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
		got := x.Condition(trait, text)
		require.Empty(t, got.Fault, "%q", text)
		require.True(t, got.Set.Equal(want), "%q: %s, want %s", text, got.Set, want)
	})
}

// TestStretches holds from and to against the order of the values.
func TestStretches(t *testing.T) {
	x, trait := declared(t, model.Size, "1/2 in", "1/4 in", "20 mm", "3/8 in", "6 mm", "10 mm hose")
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.IntRange(0, len(trait.Values)-1).Draw(t, "from")
		v := trait.Values[i]
		up, down := x.Condition(trait, "from "+v.Name), x.Condition(trait, "to "+v.Name)
		require.True(t, up.Reads() && down.Reads())
		require.True(t, up.Set.And(down.Set).Equal(space.SetOf(i)), "from and to %s share %s", v.Name, up.Set.And(down.Set))
		for j, o := range trait.Values {
			same := o.Size.Line == v.Size.Line
			require.Equal(t, same && o.Size.MM().Cmp(v.Size.MM()) >= 0, up.Set.Has(j), "from %s: %s", v.Name, o.Name)
			require.Equal(t, same && o.Size.MM().Cmp(v.Size.MM()) <= 0, down.Set.Has(j), "to %s: %s", v.Name, o.Name)
		}
		require.False(t, up.Set.Has(trait.Absent()) || down.Set.Has(trait.Absent()))
	})
}

func TestConditionNeverPanics(t *testing.T) {
	pieces := rapid.SampledFrom([]string{"Low", "High", "not", "any", "n/a", "from", "to", "or", " ", ",", ";", "\n", "1/2 in", "é", "\x00", "İ"})
	for _, kind := range []model.TraitKind{model.Choice, model.Ordered} {
		x, trait := declared(t, kind, "Low", "High", "not Low", "İ")
		rapid.Check(t, func(t *rapid.T) {
			text := strings.Join(rapid.SliceOfN(pieces, 0, 10).Draw(t, "pieces"), "")
			got := x.Condition(trait, text)
			bad := got.Fault.Says != "" || got.Fault.Name != ""
			require.Equal(t, bad || got.Any, got.Set.IsEmpty(), "%q: a condition is any, a set or refused", text)
		})
	}
}

// TestDecimalComma holds that sizes are read with the decimal sign of the catalogue.
func TestDecimalComma(t *testing.T) {
	_, trait := declared(t, model.Size, "1/2 in", "1/4 in")
	for _, comma := range []bool{true, false} {
		x := Of(&model.Catalogue{Settings: model.Settings{DecimalComma: comma}, Traits: []*model.Trait{trait}})
		got := x.Condition(trait, "0,5 in")
		assert.Equal(t, comma, got.Reads() && got.Set.Equal(space.SetOf(0)), "%+v", got)
	}
}
