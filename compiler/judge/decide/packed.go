package decide

import (
	"math/big"

	"ferrule/compiler/model"
)

// Packed is a guide in a tenth of the memory: the guides of all platforms are held until
// everything is published, and each is opened only for as long as its page is made. What a guide
// has of the catalogue is kept as it is; the rest are numbers of variable length, and
// what positions have in common, boxes, trees and what is said, is there once.
type Packed struct {
	guide Guide  // what is small anyway; nothing else is in it
	refs  []any  // what is of the catalogue, each once
	text  []byte // what packer wrote
}

// Pack packs a guide, which must not be changed while what was packed is in use.
func Pack(g *Guide) *Packed {
	w := packer{at: map[any]int{}, boxes: map[string]int{}, words: map[string]int{}, trees: map[string]int{}}
	out := &Packed{guide: *g}
	out.guide.Vehicles, out.guide.Rows, out.guide.Answers, out.guide.Rules = nil, nil, nil, nil
	out.guide.Complaints, out.guide.Inspections = nil, nil
	putList(&w, g.Vehicles, w.box)
	putList(&w, g.Rows, func(u RowUse) {
		w.ref(u.Row)
		w.box(u.Where)
		w.big(u.Configurations)
		w.rat(u.Road)
	})
	putList(&w, g.Answers, w.answer)
	putList(&w, g.Rules, func(u RuleUse) {
		w.ref(u.Rule)
		putList(&w, u.Where, w.box)
	})
	w.complaints(g)
	out.refs, out.text = append([]any(nil), w.refs...), append([]byte(nil), w.text...)
	return out
}

// Open gives the guide, the same each time. Its boxes share memory: nobody may change them.
func (p *Packed) Open() *Guide {
	r := unpacker{rest: p.text, refs: p.refs}
	out := p.guide
	out.Vehicles = getList(&r, r.box)
	out.Rows = getList(&r, func() RowUse {
		return RowUse{Row: ref[*model.Vehicles](&r), Where: r.box(), Configurations: r.big(), Road: r.rat()}
	})
	out.Answers = getList(&r, r.answer)
	out.Rules = getList(&r, func() RuleUse {
		return RuleUse{Rule: ref[*model.Rule](&r), Where: getList(&r, r.box)}
	})
	r.complaints(&out)
	return &out
}

// Outline opens the guide without its cases and questions, of which comparing asks nothing.
func (p *Packed) Outline() *Guide {
	out := p.Open()
	for _, a := range out.Answers {
		a.Cases, a.Questions = nil, Questions{}
	}
	return out
}

// Size is about how many bytes what was packed takes.
func (p *Packed) Size() int { return len(p.text) + 16*len(p.refs) }

// number is the text of a count, which is never less than nothing.
func number(n *big.Int) []byte {
	if n.Sign() < 0 {
		panic("decide: a guide counts less than nothing")
	}
	return n.Bytes()
}
