package finding

import (
	"math/big"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Open gives the region in full; nil for none.
func (p *Packed) Open() *Region {
	if p == nil {
		return nil
	}
	o := opener{p.said, p.terms}
	r := &Region{Exact: p.Exact}
	has := o.number()
	if has&hasConfigurations != 0 {
		r.Configurations = o.big()
	}
	if has&hasOnTheRoad != 0 {
		r.OnTheRoad = new(big.Rat).SetFrac(o.big(), o.big())
	}
	if has&hasRest != 0 {
		r.Rest = o.big()
	}
	if has&hasExample != 0 {
		r.Example = o.example()
	}
	r.Where, r.Tight = o.boxes(), o.boxes()
	return r
}

// opener reads what a Packer has written.
type opener struct {
	rest  string
	terms *terms
}

func (o *opener) unsigned() uint64 {
	var n uint64
	for i := 0; ; i++ {
		b := o.rest[i]
		n |= uint64(b&0x7f) << (7 * i)
		if b < 0x80 {
			o.rest = o.rest[i+1:]
			return n
		}
	}
}

// number reads an integer that is written as binary.AppendVarint does.
func (o *opener) number() int {
	n := o.unsigned()
	return int(int64(n>>1) ^ -int64(n&1))
}

func (o *opener) big() *big.Int {
	length := o.number()
	digits := o.rest[:length/2]
	o.rest = o.rest[length/2:]
	n := new(big.Int).SetBytes([]byte(digits))
	if length%2 == 1 {
		n.Neg(n)
	}
	return n
}

func (o *opener) example() *model.Example {
	e := &model.Example{Year: o.number()}
	if n := o.number(); n > 0 {
		e.Traits = make([]model.TraitValue, n)
	}
	for i := range e.Traits {
		e.Traits[i] = model.TraitValue{Trait: o.terms.traits[o.number()], Value: o.number()}
	}
	return e
}

func (o *opener) boxes() []model.Box {
	n := o.number()
	if n == 0 {
		return nil
	}
	out := make([]model.Box, n)
	for i := range out {
		if years := o.number(); years > 0 {
			out[i].Years = make([]model.Span, years-1)
		}
		for k := range out[i].Years {
			from := o.number()
			out[i].Years[k] = model.Span{From: from, To: from + o.number()}
		}
		out[i].Traits, out[i].So = o.sets(), o.sets()
	}
	return out
}

func (o *opener) sets() []model.TraitSet {
	n := o.number()
	if n == 0 {
		return nil
	}
	out := make([]model.TraitSet, n)
	for i := range out {
		trait := o.number()
		out[i] = model.TraitSet{Trait: o.terms.traits[trait/2], Values: o.values()}
		if trait%2 == 1 {
			out[i].Line = o.terms.lines[o.number()]
		}
	}
	return out
}

func (o *opener) values() space.Set {
	out := make(space.Set, o.unsigned())
	for i := range out {
		out[i] = o.unsigned()
	}
	return out
}
