package site

import (
	"math/big"

	"ferrule/compiler"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// sample is a compiled catalogue of one platform and one position with a gap.
func sample() *compiler.Result {
	p := &model.Platform{Name: "H7", Years: []int{1998, 1999}}
	front := &model.Position{Name: "Front damper"}
	front.Rows = []*model.PositionRow{{Position: front, Quantity: 2}}
	a := &decide.Answer{Position: front, Exact: true, Configurations: big.NewInt(2),
		Cases: []decide.Case{{Outcome: model.Gap, Configurations: big.NewInt(2), Quantity: 2}}}
	for i := range a.Counts {
		a.Counts[i], a.Road[i] = new(big.Int), new(big.Rat)
	}
	a.Counts[model.Gap] = big.NewInt(2)
	return &compiler.Result{Whole: true,
		Catalogue: &model.Catalogue{Platforms: []*model.Platform{p}, Positions: []*model.Position{front},
			Parts: []*model.Part{{Number: "QX-1", Listed: true, Known: true}}},
		Guides: []*decide.Packed{decide.Pack(&decide.Guide{Platform: p, Configurations: big.NewInt(2), OnTheRoad: new(big.Rat), Answers: []*decide.Answer{a}})},
	}
}
