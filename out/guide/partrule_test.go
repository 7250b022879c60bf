package guide_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/guide"
)

// The page of a part says where it must not be fitted beside where it fits, and what
// follows from it for vehicles that exist.
func TestRulesOnThePageOfAPart(t *testing.T) {
	s := newSample()
	part, levelling, lift := s.Cat.Parts[0], s.Guides[0].Traits[1].Trait, s.Guides[0].Traits[0].Trait
	rule := &model.Rule{Part: part, Effect: model.Forbid, Reason: "It hunts for its height."}
	s.Cat.Rules = append(s.Cat.Rules, rule)
	s.Guides[0].Rules = append(s.Guides[0].Rules, decide.RuleUse{Rule: rule, Where: []model.Box{{
		Years:  []model.Span{{From: 2005, To: 2006}},
		Traits: []model.TraitSet{levelling.Is(0)},
		So:     []model.TraitSet{lift.Is(0)},
	}}})
	root := parse(t, s.pages(t, guide.Options{})["parts/"+"wd-100.html"])
	var said []string
	for _, n := range all(root, class("forbid")) {
		said = append(said, words(n))
	}
	value := func(t *model.Trait) string { return t.Values[0].Name }
	assert.Contains(t, said, "Not in 2005 to 2006 where "+levelling.Name+" is "+value(levelling)+
		": It hunts for its height. so: "+lift.Name+" "+value(lift))
}
