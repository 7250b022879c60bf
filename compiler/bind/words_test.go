package bind

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// traitOf gives a trait with these values.
func traitOf(t require.TestingT, name string, kind model.TraitKind, values ...string) *model.Trait {
	trait := &model.Trait{Name: name, Kind: kind}
	for _, v := range values {
		value := &model.Value{Name: v}
		if kind == model.Size {
			size, err := measure.ParseSize(v, measure.Options{})
			require.NoError(t, err)
			value.Size = size
		}
		trait.Values = append(trait.Values, value)
	}
	return trait
}

// spoken is a small catalogue with names that are awkward in cells.
func spoken(t require.TestingT) *model.Catalogue {
	cat := &model.Catalogue{}
	for i, n := range []string{"H7", "Mark 2, long", "not H7"} {
		cat.Platforms = append(cat.Platforms, &model.Platform{Index: i, Name: n, Years: []int{2004, 2005, 2006}})
	}
	add := func(name string, kind model.TraitKind, values ...string) {
		tr := traitOf(t, name, kind, values...)
		tr.Index = len(cat.Traits)
		cat.Traits = append(cat.Traits, tr)
	}
	add("Levelling", model.Choice, "Mechanical", "Electronic, two modes", "Left or right", "not Mechanical", "from here", "None")
	add("Rating", model.Ordered, "6.3 t", "7.1 t", "7.5 t", "8.0 t", "9.0 t")
	add("Front air line", model.Size, "1/4 in", "3/8 in", "1/2 in")
	cat.Positions = []*model.Position{{Name: "Front damper"}}
	cat.Parts = []*model.Part{{Number: "QX-1", Known: true}, {Number: "QX-2", Known: true}}
	return cat
}

// TestCellsReadBack holds that what Cells writes is met by exactly the set.
func TestCellsReadBack(t *testing.T) {
	cat := spoken(t)
	w := NewWords(cat)
	rapid.Check(t, func(t *rapid.T) {
		tr := rapid.SampledFrom(cat.Traits).Draw(t, "trait")
		picked := rapid.SliceOfNDistinct(rapid.IntRange(0, tr.Absent()), 1, tr.Absent(), rapid.ID).Draw(t, "values")
		set := space.SetOf(picked...)
		union := space.Set{}
		for _, cell := range w.Cells(model.TraitSet{Trait: tr, Values: set}) {
			back, restricts, err := w.Values(tr, cell)
			require.NoError(t, err, cell)
			require.True(t, restricts, cell)
			require.False(t, back.Values.Meets(union), "%q says again what another cell says", cell)
			union = union.Or(back.Values)
		}
		require.True(t, union.Equal(set), "%s, not %s", union, set)
	})
}

func TestCellsInWords(t *testing.T) {
	cat := spoken(t)
	w := NewWords(cat)
	for _, c := range []struct {
		trait  int
		values space.Set
		want   []string
	}{
		{1, space.SetOf(0), []string{"6.3 t"}},
		{1, space.SetOf(0, 2), []string{"6.3 t or 7.5 t"}},
		{1, space.SetOf(1, 2, 3), []string{"from 7.1 t to 8.0 t"}},
		{1, space.SetOf(0, 1, 2, 3, 4), []string{"from 6.3 t to 9.0 t"}},
		{1, space.SetOf(0, 1, 3, 4, 5), []string{"not 7.5 t"}},
		{1, space.SetOf(5), []string{"n/a"}},
		{1, space.SetOf(0, 5), []string{"6.3 t or n/a"}},
		{2, space.SetOf(0, 1, 2), []string{"not n/a"}},
		{0, space.SetOf(0, 1), []string{"Mechanical", "Electronic, two modes"}},
		{0, space.SetOf(0, 2), []string{"Mechanical, Left or right"}},
	} {
		tr := cat.Traits[c.trait]
		assert.Equal(t, c.want, w.Cells(model.TraitSet{Trait: tr, Values: c.values}), "%s %s", tr.Name, c.values)
	}
	assert.Equal(t, "2004-2006, 2009", YearCell([]model.Span{{From: 2004, To: 2006}, {From: 2009, To: 2009}}))
}

func TestWordsFindNames(t *testing.T) {
	w := NewWords(spoken(t))
	p, err := w.Platform("  mark 2,  LONG ")
	require.NoError(t, err)
	assert.Equal(t, "Mark 2, long", p.Name)
	size, restricts, err := w.Values(w.cat.Traits[2], "12.7 mm")
	require.NoError(t, err)
	assert.True(t, restricts)
	assert.True(t, size.Values.Equal(space.SetOf(2)))
	_, restricts, err = w.Values(w.cat.Traits[2], "any")
	require.NoError(t, err)
	assert.False(t, restricts)
	platforms, err := w.Platforms("h7 or not H7")
	require.NoError(t, err)
	assert.Len(t, platforms, 2)

	for want, ask := range map[string]func() error{
		`no platform is called "H8"; did you mean H7?`:                                                                         func() error { _, err := w.Platform("H8"); return err },
		`no trait is called "Leveling"; did you mean Levelling?`:                                                               func() error { _, err := w.Trait("Leveling"); return err },
		`no position is called "Bell crank"; there is Front damper`:                                                            func() error { _, err := w.Position("Bell crank"); return err },
		`no part is called "QX-3"`:                                                                                             func() error { _, err := w.Part("QX-3"); return err },
		`no value of Rating is called "7.2 t"; there are 6.3 t, 7.1 t, 7.5 t, 8.0 t and 9.0 t`:                                 func() error { _, _, err := w.Values(w.cat.Traits[1], "7.2 t"); return err },
		`"2004-06" is taken for a range of years, and a year has four digits; write 2004-2006, or 2004 where a month is meant`: func() error { _, err := w.Years("2004-06"); return err },
		`"QX-1, QX-2": what stands between the parts may mean a choice or both: write "QX-1 or QX-2" for a choice, or "QX-1 + QX-2" for parts fitted together`: func() error {
			_, _, err := w.Fits("QX-1, QX-2")
			return err
		},
	} {
		assert.EqualError(t, ask(), want)
	}
}

// TestWordsTakeParts holds that a number which nothing declares is a part to come, and
// that it is told.
func TestWordsTakeParts(t *testing.T) {
	w := NewWords(spoken(t))
	fits, unknown, err := w.Fits("2 x ZZ-90 or qx-1")
	require.NoError(t, err)
	assert.Equal(t, "ZZ-90", fits.Alternatives[0][0].Part.Number)
	assert.Equal(t, "QX-1", fits.Alternatives[1][0].Part.Number)
	assert.Equal(t, []string{`no part is called "ZZ-90"`}, unknown)
	_, unknown, err = w.Fits("QX-1")
	require.NoError(t, err)
	assert.Empty(t, unknown)
}

// TestWordsTellWhatFits holds which faults of a fitment cell are errors: what a number is taken
// for is told beside what the cell says, all else in its place.
func TestWordsTellWhatFits(t *testing.T) {
	cat := spoken(t)
	cat.Parts = append(cat.Parts, &model.Part{Number: "00417", Known: true})
	w := NewWords(cat)
	fits, unknown, err := w.Fits("QX1")
	require.NoError(t, err)
	assert.True(t, fits.Alternatives[0][0].Part.Misread)
	assert.Equal(t, []string{`no part is called "QX1"; write QX-1`}, unknown)
	for text, want := range map[string]string{
		"417":               `no part is called "417"; 00417 is, and a spreadsheet program takes leading zeros off a number: set the cell's format to text and type 00417`,
		"with Front dampre": `no position is called "Front dampre"; did you mean Front damper?`,
		"ZZ-90 or none":     `"ZZ-90 or none": none stands alone in its cell and cannot be one of several`,
	} {
		fits, unknown, err := w.Fits(text)
		assert.EqualError(t, err, want)
		assert.Nil(t, fits)
		assert.Empty(t, unknown)
	}
	_, err = w.Platforms("H7 or H8, all")
	assert.EqualError(t, err, `no platform is called "H8"; did you mean H7?; any stands alone in its cell`)
}
