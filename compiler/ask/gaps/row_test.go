package gaps

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
)

// awkward is a catalogue whose names hold the words and signs that a row is cut at.
func awkward() *model.Catalogue {
	cat := &model.Catalogue{
		Platforms: []*model.Platform{{Name: "H7", Years: []int{2004, 2005}}, {Index: 1, Name: "L4", Years: []int{2004}}},
		Positions: []*model.Position{{Name: "Step in front"}, {Index: 1, Name: "Front damper"}},
		Parts:     []*model.Part{{Number: "QX-1", Known: true}},
	}
	for i, n := range []string{"Ratio=final", "Axle and hub", "Springs", "Line size"} {
		cat.Traits = append(cat.Traits, &model.Trait{Index: i, Name: n, Values: []*model.Value{{Name: "a, b"}, {Name: "c and d"}, {Name: "e"}}})
	}
	return cat
}

func TestRows(t *testing.T) {
	r := NewReader(awkward())
	for _, c := range []struct{ text, fits, position, where string }{
		{"QX-1 in front damper", "QX-1", "Front damper", "all"},
		{"QX-1 in Step in front where Years = 2004+", "QX-1", "Step in front", "2004 to 2005"},
		{"2 x QX-1 or QX-1 IN Front damper WHERE Springs = e", "2 x QX-1 or QX-1", "Front damper", "Springs e"},
		{"ask where it in the end sits in Front damper", "ask: where it in the end sits", "Front damper", "all"},
		{"none: nothing in front, where it bends in Front damper where Springs = e", "none: nothing in front, where it bends", "Front damper", "Springs e"},
		{"QX-1 in Front damper where Ratio=final = a, b, Axle and hub = e", "QX-1", "Front damper", "Ratio=final a, b, Axle and hub e"},
		{"QX-1 in Front damper where Springs = c and d and Axle and hub = c and d; Years=2005", "QX-1", "Front damper", "2005, Axle and hub c and d, Springs c and d"},
		{"QX-1 in Front damper where Springs = not e, c and d, Line size = e", "QX-1", "Front damper", "Springs a, b, or does not apply, Line size e"},
		{"with Step in front in Front damper where Springs = any", "with Step in front", "Front damper", "all"},
	} {
		row, err := r.Row(c.text)
		require.NoError(t, err, c.text)
		assert.Equal(t, c.fits, row.Cell.Fits.String(), c.text)
		assert.Equal(t, c.position, row.Cell.Position.Name, c.text)
		box := model.Box{Traits: row.Cell.Row.When.Traits}
		if y := row.Cell.Row.When.Years; y != nil {
			for _, year := range []int{2004, 2005} {
				if y.Has(year) {
					box.Years = append(box.Years, model.Span{From: year, To: year})
				}
			}
		}
		if len(box.Years) == 2 {
			box.Years = []model.Span{{From: 2004, To: 2005}}
		}
		assert.Equal(t, c.where, box.String(), c.text)
		assert.Empty(t, row.Unknown)
	}
}

// TestRowsOfNewParts holds that what is said of a part which nothing declares is the
// part's, once for all rows.
func TestRowsOfNewParts(t *testing.T) {
	cat := awkward()
	cat.Traits = cat.Traits[:3] // Line size is no trait now
	r := NewReader(cat)
	first, err := r.Row("ZZ-9 in Front damper where Line size = 12.7 mm, Family = Restrictor, Precedence = -3, Platform = not L4")
	require.NoError(t, err)
	part := first.Cell.Fits.Alternatives[0][0].Part
	assert.Equal(t, "Restrictor", part.Family)
	assert.Equal(t, "127/10", part.Line.MM().RatString())
	assert.Equal(t, -3, first.Cell.Row.Precedence)
	assert.Equal(t, cat.Platforms[:1], first.Cell.Row.When.Platforms)
	assert.Len(t, first.Unknown, 1)
	second, err := r.Row("QX-1 + zz-9 in Step in front")
	require.NoError(t, err)
	assert.Same(t, part, second.Cell.Fits.Alternatives[0][1].Part)
	assert.NotEqual(t, first.Cell.At, second.Cell.At, "findings tell the rows apart")
}

func TestRowsThatCannotBeRead(t *testing.T) {
	r := NewReader(awkward())
	for text, want := range map[string]string{
		"":                                   `"" names no position; write PART in POSITION where CONDITIONS`,
		"QX-1":                               `"QX-1" names no position; write PART in POSITION where CONDITIONS`,
		"QX-1 in Damper":                     `no position is called "Damper"; there are Step in front and Front damper`,
		"- in Front damper":                  `"-" says nothing; write none and the reason where nothing belongs, or leave the cell blank where nothing is known`,
		"with Front damper in Front damper":  `"with Front damper" says with Front damper, which is its own position`,
		"QX-1 in Front damper where Springs": `"Springs" is no condition; write a column, =, and what would stand under it`,
		"QX-1 in Front damper where Platform = H8":  `no platform is called "H8"; did you mean H7?`,
		"QX-1 in Front damper where Years = 2004-5": `"2004-5" is taken for a range of years, and a year has four digits; write 2004-2005, or 2004 where a month is meant`,
		"QX-1 in Front damper where Family = Step":  "only a part that is not declared yet takes a Line size and a Family here",
	} {
		_, err := r.Row(text)
		assert.EqualError(t, err, want, text)
	}
}
