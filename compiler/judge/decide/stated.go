package decide

import (
	"math/big"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// statedRow is a Vehicles row as a box.
type statedRow struct {
	row *model.Vehicles
	box space.Box
}

// RowUse is what a Vehicles row says of a platform.
type RowUse struct {
	Row            *model.Vehicles
	Where          model.Box // its years and every trait, as the row says them
	Configurations *big.Int  // of it that exist; rows may overlap
	Road           *big.Rat  // the part of the row's number that falls to the platform; nil where it has none
}

// RowUses says what the Vehicles rows say of the platform. Rows about none of its years are left
// out: a box without years would be about all of them.
func (p *Platform) RowUses(x *Index) []RowUse {
	var out []RowUse
	exist := p.All
	if len(p.breaks) == 0 {
		exist = space.Full // all of a row does, also where the platform is too irregular
	}
	for _, s := range p.stated {
		if s.box.At(0) != nil && s.box.At(0).IsEmpty() {
			continue
		}
		use := RowUse{Row: s.row, Where: model.Box{Years: p.Model.Runs(p.Model.YearSet(s.row.When.Years))}, Configurations: p.CountIn(exist, s.box)}
		for _, t := range s.row.When.Traits {
			local := p.Cat.Traits[t.Trait.Index]
			use.Where.Traits = append(use.Where.Traits, model.TraitSet{Trait: local, Values: t.On(local)})
		}
		if per, ok := x.per(s.row); ok {
			use.Road = new(big.Rat).SetInt(p.Weigh(exist, s.box))
			use.Road.Mul(use.Road, per)
		}
		out = append(out, use)
	}
	return out
}
