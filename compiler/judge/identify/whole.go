package identify

import (
	"cmp"
	"math/big"
	"slices"

	"ferrule/compiler/judge/decide"
)

// Whole gives how to find out about all positions together.
func (p *Platform) Whole(answers []*decide.Answer) decide.Finder {
	return decide.Finder{Order: p.order(answers), Effort: p.Asking.Effort}
}

// order lists the traits that answers depend on: first those that decide much for
// their effort.
func (p *Platform) order(answers []*decide.Answer) []int {
	decides := make([]int64, len(p.Asking.Effort))
	for _, a := range answers {
		for _, t := range a.Questions.Tree.Traits() {
			decides[t]++
		}
	}
	var out []int
	for t, n := range decides {
		if n > 0 {
			out = append(out, t)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		x := big.NewRat(decides[a], int64(p.Asking.Effort[a]))
		return cmp.Or(big.NewRat(decides[b], int64(p.Asking.Effort[b])).Cmp(x), a-b)
	})
	return out
}
