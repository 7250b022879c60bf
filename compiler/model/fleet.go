package model

import (
	"math/big"

	"ferrule/compiler/space"
)

// YearSet gives which of the platform's years meet a condition, by index.
func (p *Platform) YearSet(y *Years) space.Set {
	in := make(space.Set, (len(p.Years)+63)/64)
	for i, year := range p.Years {
		if y.Has(year) {
			in[i/64] |= 1 << (i % 64)
		}
	}
	return in
}

// Configurations counts those of one platform that the row is about: its years times the
// values of each trait.
func (v *Vehicles) Configurations(p *Platform) *big.Int {
	n := big.NewInt(int64(p.YearSet(v.When.Years).Len()))
	for _, t := range v.When.Traits {
		n.Mul(n, big.NewInt(int64(t.Values.Len())))
	}
	return n
}

// PerConfiguration gives how many vehicles on the road fall to each configuration of the
// row: they are spread evenly over those of all its platforms. It is false where the row does
// not say how many there are, or is about none.
func (v *Vehicles) PerConfiguration(cat *Catalogue) (*big.Rat, bool) {
	all := new(big.Int)
	for _, p := range v.When.On(cat) {
		all.Add(all, v.Configurations(p))
	}
	if !v.Road.Stated() || all.Sign() == 0 {
		return nil, false
	}
	return new(big.Rat).Quo(v.Road.Rat, new(big.Rat).SetInt(all)), true
}
