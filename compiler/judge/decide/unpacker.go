package decide

import (
	"encoding/binary"
	"math/big"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// unpacker takes what packer wrote from the front. That it ends early is a broken invariant.
type unpacker struct {
	rest  []byte
	refs  []any
	boxes []model.Box
	words []Case
	trees []*Tree
}

const cutShort = "decide: a packed guide is cut short"

func (r *unpacker) int() int {
	n, size := binary.Varint(r.rest)
	if size <= 0 {
		panic(cutShort)
	}
	r.rest = r.rest[size:]
	return int(n)
}

func (r *unpacker) word() uint64 {
	n, size := binary.Uvarint(r.rest)
	if size <= 0 {
		panic(cutShort)
	}
	r.rest = r.rest[size:]
	return n
}

func (r *unpacker) bool() bool { return r.int() == 1 }

func ref[T any](r *unpacker) T { return r.refs[r.int()].(T) }

// once reads what is there the first time that it comes, else gives it by its number.
func once[T any](r *unpacker, known *[]T, read func() T) T {
	n := r.int()
	if n == len(*known) {
		v := read()
		*known = append(*known, v)
	}
	return (*known)[n]
}

func getList[T any](r *unpacker, get func() T) []T {
	n := r.int()
	if n == 0 {
		return nil
	}
	out := make([]T, n-1)
	for i := range out {
		out[i] = get()
	}
	return out
}

func (r *unpacker) number() *big.Int {
	n := r.int()
	if n > len(r.rest) {
		panic(cutShort)
	}
	out := new(big.Int)
	if n > 0 {
		out.SetBytes(r.rest[:n])
	}
	r.rest = r.rest[n:]
	return out
}

func (r *unpacker) big() *big.Int {
	if !r.bool() {
		return nil
	}
	return r.number()
}

func (r *unpacker) rat() *big.Rat {
	if !r.bool() {
		return nil
	}
	return new(big.Rat).SetFrac(r.number(), r.number())
}

func (r *unpacker) set() space.Set { return getList(r, r.word) }

func (r *unpacker) box() model.Box {
	return once(r, &r.boxes, func() model.Box {
		return model.Box{
			Years:  getList(r, func() model.Span { return model.Span{From: r.int(), To: r.int()} }),
			Traits: getList(r, r.traitSet),
			So:     getList(r, r.traitSet),
		}
	})
}

func (r *unpacker) traitSet() model.TraitSet {
	return model.TraitSet{Trait: ref[*model.Trait](r), Values: r.set(), Line: ref[*model.Line](r)}
}

func (r *unpacker) answer() *Answer {
	a := &Answer{Position: ref[*model.Position](r), Exact: r.bool(), Configurations: r.big()}
	for o := range a.Counts {
		a.Counts[o], a.Road[o] = r.big(), r.rat()
	}
	a.Cases = getList(r, r.kase)
	a.Unsettled, a.Unlisted = getList(r, r.box), r.bool()
	a.Against = getList(r, func() Against { return Against{Cause: ref[Cause](r), Where: getList(r, r.box)} })
	a.Classes = r.int()
	a.Questions = Questions{Tree: once(r, &r.trees, r.tree), Expected: r.rat(), Least: r.rat(), Exact: r.bool()}
	return a
}

func (r *unpacker) kase() Case {
	where, n, class := r.box(), r.big(), r.int()
	c := once(r, &r.words, r.says)
	c.Where, c.Configurations, c.Class = where, n, class
	return c
}

// says reads what a case says, wherever it holds.
func (r *unpacker) says() Case {
	return Case{
		Outcome: model.Outcome(r.int()), Unsettled: r.bool(), Quantity: r.int(),
		Alternatives: getList(r, func() model.Alternative {
			return getList(r, func() model.Item { return model.Item{Part: ref[*model.Part](r), Quantity: r.int()} })
		}),
		With:  ref[*model.Position](r),
		Texts: getList(r, func() string { return ref[string](r) }),
		Notes: getList(r, func() model.Note { return ref[model.Note](r) }),
		Cells: getList(r, func() *model.FitCell { return ref[*model.FitCell](r) }),
	}
}

func (r *unpacker) tree() *Tree {
	if !r.bool() {
		return nil
	}
	return &Tree{
		Trait:    r.int(),
		Branches: getList(r, func() Branch { return Branch{Values: Values(r.set()), Next: r.tree()} }),
		Classes:  getList(r, r.int),
	}
}
