package pick

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
)

func questions() *Lookup {
	cat := &model.Catalogue{Platforms: []*model.Platform{{Name: "H7", Years: []int{2004, 2005, 2006}}, {Index: 1, Name: "H=9", Years: []int{2010}}}}
	for i, n := range []string{"Springs", "Ratio=final", "Years kept"} {
		cat.Traits = append(cat.Traits, &model.Trait{Index: i, Name: n, Values: []*model.Value{{Name: "a"}, {Name: "b = c"}, {Name: "d"}}})
	}
	return NewLookup(cat)
}

func TestQuestions(t *testing.T) {
	d := questions()
	for _, c := range []struct {
		platform, years string
		answers         []string
		want            string
	}{
		{"h7", "", nil, "H7 all"},
		{"H7", "2005", nil, "H7 2005"},
		{"H7", "2005+", []string{"springs = A"}, "H7 2005 to 2006, Springs a"},
		{"", "", []string{"Platform=H=9", "year=2010"}, "H=9 2010"},
		{"H7", "", []string{"Ratio=final=b = c"}, "H7 Ratio=final b = c"},
		{"H7", "", []string{"Springs=b = c or n/a", "Ratio=final=not a"}, "H7 Springs b = c, or does not apply, Ratio=final b = c or d, or does not apply"},
		{"H7", "any", []string{"Springs=any", "Years kept=d", "Ratio=final=d"}, "H7 Ratio=final d, Years kept d"},
		{"H7", "not 2005", nil, "H7 2004, 2006"},
		{"H7", "1999", nil, "H7 1999"},
		{"H7", "1999-2001, 2030+", nil, "H7 1999 to 2001, 2030"},
		{"H7", "to 2005", nil, "H7 2004 to 2005"},
	} {
		q, err := d.Query(c.platform, c.years, c.answers)
		require.NoError(t, err, "%+v", c)
		assert.Equal(t, c.want, q.Platform.Name+" "+q.Box().String())
		assert.Equal(t, []*model.Platform{q.Platform}, q.When.Platforms)
	}
}

func TestQuestionsThatCannotBeRead(t *testing.T) {
	d := questions()
	for want, c := range map[string]struct {
		platform, years string
		answers         []string
	}{
		"of which platform is the vehicle? There is H7 and H=9":                      {},
		`no platform is called "H8"; did you mean H7?`:                               {"H8", "", nil},
		`platform is told twice: "H7" and "H=9"`:                                     {"H7", "", []string{"Platform=H=9"}},
		`years is told twice: "2004" and "2005"`:                                     {"H7", "2004", []string{"Year=2005"}},
		"Springs is told twice":                                                      {"H7", "", []string{"Springs=a", "springs=a"}},
		`no trait is called "Colour"; there are Springs, Ratio=final and Years kept`: {"H7", "", []string{"Colour=red"}},
		`no value of Springs is called "e"; there are a, b = c and d`:                {"H7", "", []string{"Springs=e"}},
		`"not a or b = c or d or n/a" leaves no value of Springs`:                    {"H7", "", []string{"Springs=not a or b = c or d or n/a"}},
		`"not 2004+" leaves no year of H7`:                                           {"H7", "not 2004+", nil},
		`"Springs" is no answer; write a trait, =, and its value`:                    {"H7", "", []string{"Springs"}},
	} {
		_, err := d.Query(c.platform, c.years, c.answers)
		assert.EqualError(t, err, want)
	}
}
