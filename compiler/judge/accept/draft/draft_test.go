package draft

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

func catalogue() *model.Catalogue {
	springs := &model.Trait{Name: "Springs", Values: []*model.Value{{Name: "Air"}, {Name: "Leaf, tapered"}, {Name: "Rubber"}, {Name: "Coil"}}}
	lift := &model.Trait{Index: 1, Name: "Lift axle", Values: []*model.Value{{Name: "Lift"}}}
	return &model.Catalogue{
		Platforms: []*model.Platform{{Name: "H7", Years: []int{2004, 2005, 2007}}},
		Traits:    []*model.Trait{springs, lift},
		Positions: []*model.Position{{Name: "Front damper"}},
		Parts:     []*model.Part{{Number: "QX-1", Known: true}},
	}
}

func about(n int64, boxes ...model.Box) *finding.Finding {
	return &finding.Finding{Code: "coverage-gap", Severity: finding.Error, Platform: "H7", Position: "Front damper", Message: "m",
		Region: finding.Pack(&finding.Region{Exact: true, Configurations: big.NewInt(n), OnTheRoad: big.NewRat(n, 2), Where: boxes})}
}

func draftOf(fs ...*finding.Finding) *Draft {
	return New(catalogue(), fs, Options{Reason: "r", By: "b"})
}

func left(d *Draft) []string {
	var out []string
	for _, l := range d.Left {
		out = append(out, l.Why)
	}
	return out
}

// TestRowsOfBoxes holds the cells of boxes: years always, and a row for each value that
// can only stand alone.
func TestRowsOfBoxes(t *testing.T) {
	cat := catalogue()
	springs, lift := cat.Traits[0], cat.Traits[1]
	d := draftOf(about(7,
		model.Box{},
		model.Box{Years: []model.Span{{From: 2004, To: 2005}}, Traits: []model.TraitSet{{Trait: springs, Values: space.SetOf(0, 1)}, {Trait: lift, Values: space.SetOf(1)}}},
	))
	assert.Equal(t, []string{"Finding", "Platform", "Years", "Springs", "Lift axle", "Position", "Reason", "By", "Until"}, d.Columns)
	assert.Equal(t, [][]string{
		{"coverage-gap", "H7", "2004-2007", "", "", "Front damper", "r", "b", ""},
		{"coverage-gap", "H7", "2004-2005", "Air", "n/a", "Front damper", "r", "b", ""},
		{"coverage-gap", "H7", "2004-2005", "Leaf, tapered", "n/a", "Front damper", "r", "b", ""},
	}, d.Rows)
	assert.Equal(t, 3, d.Entries[0].Rows)
	n, road := d.Configurations()
	assert.Equal(t, "7", n.String())
	assert.Equal(t, "7/2", road.String())
}

// TestRowsAreWrittenOnce holds that findings which one row accepts share it.
func TestRowsAreWrittenOnce(t *testing.T) {
	d := draftOf(about(1, model.Box{}), about(2, model.Box{}))
	assert.Len(t, d.Rows, 1)
	assert.Len(t, d.Entries, 2)
}

func TestWhatNoRowCanName(t *testing.T) {
	many := about(2000, model.Box{})
	region := many.Region.Open()
	region.Rest = big.NewInt(1000)
	many.Region = finding.Pack(region)
	d := draftOf(many, about(1, model.Box{}))
	assert.Empty(t, d.Rows)
	assert.Equal(t, []string{"its vehicles take more than 1 rows", "its rows would quiet a part of a finding that takes too many rows"}, left(d))

	unknown := about(1, model.Box{})
	unknown.Part = "ZZ-9"
	assert.Equal(t, []string{"a row cannot name ZZ-9, which nothing declares"}, left(draftOf(unknown)))

	expired := &finding.Finding{Code: "accepted-expired", Severity: finding.Warning}
	assert.Equal(t, []string{"it is about an Accepted row: mend or delete that row"}, left(draftOf(expired)))

	cell := &finding.Finding{Code: "value-invalid", Severity: finding.Error}
	assert.Equal(t, []string{"it is about no certain vehicles, so a row would quiet every value-invalid, later ones as well (--broad does that)"}, left(draftOf(cell)))
	broad := New(catalogue(), []*finding.Finding{cell}, Options{Reason: "r", By: "b", Broad: true})
	assert.Equal(t, [][]string{{"value-invalid", "r", "b", ""}}, broad.Rows)

	part := &finding.Finding{Code: "part-unused", Severity: finding.Note, Part: "QX-1"}
	assert.Equal(t, [][]string{{"part-unused", "QX-1", "r", "b", ""}}, draftOf(part).Rows, "its part names it")
	irregular := &finding.Finding{Code: "too-irregular", Severity: finding.Error, Platform: "H7", Position: "Front damper", Region: finding.Pack(&finding.Region{})}
	assert.Equal(t, [][]string{{"too-irregular", "H7", "Front damper", "r", "b", ""}}, draftOf(irregular).Rows)
}

func TestSelection(t *testing.T) {
	accepted := about(1, model.Box{})
	accepted.Accepted = &finding.Accepted{}
	warning := about(1, model.Box{})
	warning.Severity = finding.Warning
	for name, c := range map[string]struct {
		s    Selection
		f    *finding.Finding
		want bool
	}{
		"all":               {Selection{}, about(1), true},
		"accepted already":  {Selection{}, accepted, false},
		"less severe":       {Selection{Severity: finding.Error}, warning, false},
		"another code":      {Selection{Codes: []finding.Code{"part-unused"}}, about(1), false},
		"one of the codes":  {Selection{Codes: []finding.Code{"part-unused", "coverage-gap"}}, about(1), true},
		"another platform":  {Selection{Platforms: []string{"H9"}}, about(1), false},
		"its position":      {Selection{Positions: []string{"Front damper"}}, about(1), true},
		"no part to narrow": {Selection{Parts: []string{"QX-1"}}, about(1), false},
	} {
		assert.Equal(t, c.want, c.s.picks(c.f), name)
	}
}
