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

// Weight counts those configurations of one platform that the row is about: its years times
// the values of each trait. A stretch counts with its length, so that the number of stretches
// makes no difference; 'does not apply' counts one.
func (v *Vehicles) Weight(p *Platform) *big.Int {
	n := big.NewInt(int64(p.YearSet(v.When.Years).Len()))
	for _, t := range v.When.Traits {
		n.Mul(n, t.weight(p))
	}
	return n
}

// weight counts the values of a set on a platform; those on a line by their numbers or days.
func (t TraitSet) weight(p *Platform) *big.Int {
	n := big.NewInt(int64(t.Values.Len()))
	if t.Line != nil {
		n.Add(n, t.Line.Within(t.Trait.Extent(p)).Count())
	}
	return n
}

// Applies tells whether the set holds a value that the platform's vehicles may have, rather than
// only 'does not apply'.
func (t TraitSet) Applies(p *Platform) bool {
	if t.Line != nil {
		return len(t.Line.Within(t.Trait.Extent(p))) > 0
	}
	return !t.Values.Without(space.SetOf(t.Trait.Absent())).IsEmpty()
}
