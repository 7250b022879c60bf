package decide_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// What several rows say to look at first is said once, on the vehicles of all of them; on all vehicles as soon as one
// row is about all.
func TestCheckFirst(t *testing.T) {
	years := func(from, to int) []model.Box { return []model.Box{{Years: []model.Span{{From: from, To: to}}}} }
	use := func(text string, where []model.Box) decide.ComplaintUse {
		return decide.ComplaintUse{Row: &model.Complaint{Name: "rocks", Check: text}, Where: where}
	}
	assert.Equal(t, []decide.Text{
		{Text: "the tyres", Where: append(years(2001, 2002), years(2005, 2006)...)},
		{Text: "the load"}, {Text: "the welds"},
	}, decide.CheckFirst([]decide.ComplaintUse{
		use("the tyres", years(2001, 2002)), use("", nil), use("the load", nil), use("the load", years(2003, 2004)),
		use("the tyres", years(2005, 2006)), use("the welds", years(2001, 2001)), use("the welds", nil),
	}))
}

func TestGathered(t *testing.T) {
	use := func(name string) decide.ComplaintUse { return decide.ComplaintUse{Row: &model.Complaint{Name: name}} }
	var got []int
	for _, list := range decide.Gathered([]decide.ComplaintUse{use("rocks"), use("Rocks"), use("sways"), use("rocks on")}) {
		got = append(got, len(list))
	}
	assert.Equal(t, []int{2, 1, 1}, got)
}
