package bind

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
)

// calledCatalogue has other names, some of them on one platform, and two that are shared.
func calledCatalogue() *model.Catalogue {
	h7 := &model.Platform{Name: "H7", Years: []int{2004, 2005}, Called: []model.Called{{Name: "TB40"}, {Name: "Bus"}}}
	h8 := &model.Platform{Index: 1, Name: "H 8", Years: []int{2004}, Called: []model.Called{{Name: "bus"}}}
	front := &model.Trait{Name: "Front suspension", Called: []model.Called{{Name: "Front springs"}, {Name: "springs"}}, Values: []*model.Value{
		{Name: "Air beam", Called: []model.Called{{Name: "air", Platform: h7}, {Name: "soft"}}},
		{Name: "Air independent", Called: []model.Called{{Name: "air", Platform: h8}}},
		{Name: "Leaf", Called: []model.Called{{Name: "soft"}}}}}
	rear := &model.Trait{Index: 1, Name: "Rear suspension", Called: []model.Called{{Name: "Springs"}}, Values: []*model.Value{
		{Name: "45"}, {Name: "4 bags", Called: []model.Called{{Name: "air"}, {Name: "four-bag"}}}}}
	return &model.Catalogue{Platforms: []*model.Platform{h7, h8}, Traits: []*model.Trait{front, rear}, YearCalled: []model.Called{{Name: "MY"}}}
}

func TestPlatformsAsPeopleCallThem(t *testing.T) {
	w := Outside(calledCatalogue())
	for said, want := range map[string]string{"h7": "H7", "tb40": "H7", "TB-40": "H7", " T B40 ": "H7", "h-8": "H 8", "H8": "H 8"} {
		p, err := w.Platform(said)
		require.NoError(t, err, said)
		assert.Equal(t, want, p.Name, said)
	}
	for said, want := range map[string]string{
		"BUS":  `"BUS" may be H7 or H 8; write which`,
		"TB41": `no platform is called "TB41"; did you mean TB40, which is H7?`,
		"L4":   `no platform is called "L4"; there are H7 and H 8`,
	} {
		_, err := w.Platform(said)
		assert.EqualError(t, err, want)
	}
	_, err := NewWords(calledCatalogue()).Platform("TB40")
	assert.Error(t, err, "no sheet of the catalogue may say so")
	_, err = NewWords(calledCatalogue()).Platform("H8")
	assert.Error(t, err)
}

func TestValuesAsPeopleCallThem(t *testing.T) {
	cat := calledCatalogue()
	w := Outside(cat)
	front, rear := cat.Traits[0], cat.Traits[1]
	for _, c := range []struct {
		on         *model.Platform
		trait      *model.Trait
		said, want string
	}{
		{cat.Platforms[0], front, "air", "Front suspension Air beam"},
		{cat.Platforms[1], front, "Air", "Front suspension Air independent"},
		{cat.Platforms[1], front, "not AIR", "Front suspension Air beam or Leaf, or does not apply"},
		{cat.Platforms[1], front, "air, leaf", "Front suspension Air independent or Leaf"},
		{cat.Platforms[0], rear, "air", "Rear suspension 4 bags"},
		{nil, rear, "Four bag or n/a", "Rear suspension 4 bags, or does not apply"},
		{nil, rear, "4-bags", "Rear suspension 4 bags"},
	} {
		set, restricts, err := w.On(c.on).Values(c.trait, c.said)
		require.NoError(t, err, c.said)
		require.True(t, restricts)
		assert.Equal(t, c.want, model.Box{Traits: []model.TraitSet{set}}.String(), c.said)
	}
	for _, c := range []struct {
		on         *model.Platform
		trait      *model.Trait
		said, want string
	}{
		{nil, front, "air", `"air" may be Air beam or Air independent; write which`},
		{cat.Platforms[0], front, "soft", `"soft" may be Air beam or Leaf; write which`},
		{nil, rear, "4-5", `"4-5" is no value of Rear suspension as it stands; write 45`},
	} {
		_, _, err := w.On(c.on).Values(c.trait, c.said)
		assert.EqualError(t, err, c.want)
	}
	_, _, err := NewWords(cat).On(cat.Platforms[0]).Values(front, "air")
	assert.Error(t, err)
}

func TestColumnsAsPeopleCallThem(t *testing.T) {
	w := Outside(calledCatalogue())
	for said, want := range map[string]string{"Platform": "platform", "year": "years", "Years": "years", "m-y": "years", "front springs": "Front suspension", "Rear-suspension": "Rear suspension"} {
		column, trait, err := w.Column(said)
		require.NoError(t, err, said)
		if trait != nil {
			column = trait.Name
		}
		assert.Equal(t, want, column, said)
	}
	_, _, err := w.Column("springs")
	assert.EqualError(t, err, `"springs" may be Front suspension or Rear suspension; write which`)
}
