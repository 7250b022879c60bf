package finding

import (
	"encoding/binary"
	"math/big"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Packed is a Region as a finding keeps it until somebody asks: a catalogue may have half a
// million findings, and in full a region takes several times the rest of its finding.
type Packed struct {
	Exact bool
	said  string
	terms *terms
}

// terms are what packed regions name by number.
type terms struct {
	traits []*model.Trait
	lines  []*model.Line
}

// Packer packs regions that have their traits in common, as those of one platform do. Regions must not be
// opened by one goroutine while another packs.
type Packer struct {
	*terms
	numbers map[*model.Trait]int
	said    []byte
}

// NewPacker makes one that knows no trait.
func NewPacker() *Packer { return &Packer{terms: &terms{}, numbers: map[*model.Trait]int{}} }

// Pack packs one region; nil stays nil.
func Pack(r *Region) *Packed { return NewPacker().Pack(r) }

// What of a region there is.
const (
	hasConfigurations = 1 << iota
	hasOnTheRoad
	hasRest
	hasExample
)

// Pack packs a region; nil stays nil.
func (p *Packer) Pack(r *Region) *Packed {
	if r == nil {
		return nil
	}
	p.said = p.said[:0]
	p.number(flags(r))
	if r.Configurations != nil {
		p.big(r.Configurations)
	}
	if r.OnTheRoad != nil {
		p.big(r.OnTheRoad.Num())
		p.big(r.OnTheRoad.Denom())
	}
	if r.Rest != nil {
		p.big(r.Rest)
	}
	if r.Example != nil {
		p.example(r.Example)
	}
	p.boxes(r.Where)
	p.boxes(r.Tight)
	return &Packed{Exact: r.Exact, said: string(p.said), terms: p.terms}
}

func flags(r *Region) int {
	return b2i(r.Configurations != nil)*hasConfigurations | b2i(r.OnTheRoad != nil)*hasOnTheRoad |
		b2i(r.Rest != nil)*hasRest | b2i(r.Example != nil)*hasExample
}

// number writes an integer, which may be negative.
func (p *Packer) number(n int) { p.said = binary.AppendVarint(p.said, int64(n)) }

func (p *Packer) big(n *big.Int) {
	digits := n.Bytes()
	p.number(len(digits)*2 + b2i(n.Sign() < 0))
	p.said = append(p.said, digits...)
}

func (p *Packer) example(e *model.Example) {
	p.number(e.Year)
	p.number(len(e.Traits))
	for _, t := range e.Traits {
		p.number(p.trait(t.Trait))
		p.number(t.Value)
	}
}

// trait gives the number of a trait, a new one if need be.
func (p *Packer) trait(t *model.Trait) int {
	n, ok := p.numbers[t]
	if !ok {
		n = len(p.traits)
		p.numbers[t], p.traits = n, append(p.traits, t)
	}
	return n
}

func (p *Packer) boxes(bs []model.Box) {
	p.number(len(bs))
	for _, b := range bs {
		p.number(len(b.Years) + b2i(b.Years != nil)) // none, and all, are different
		for _, s := range b.Years {
			p.number(s.From)
			p.number(s.To - s.From)
		}
		p.sets(b.Traits)
		p.sets(b.So)
	}
}

func (p *Packer) sets(sets []model.TraitSet) {
	p.number(len(sets))
	for _, t := range sets {
		p.number(p.trait(t.Trait)*2 + b2i(t.Line != nil))
		p.values(t.Values)
		if t.Line != nil {
			p.number(len(p.lines))
			p.lines = append(p.lines, t.Line)
		}
	}
}

func (p *Packer) values(s space.Set) {
	p.said = binary.AppendUvarint(p.said, uint64(len(s)))
	for _, word := range s {
		p.said = binary.AppendUvarint(p.said, word)
	}
}
