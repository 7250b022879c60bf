package offer

import (
	"encoding/binary"

	"ferrule/compiler/model"
)

// encode appends an offer, without its platform, as numbers of variable length: what is
// of the catalogue by its index.
func (l *Store) encode(to []byte, o *Offer) []byte {
	put := func(n int) { to = binary.AppendVarint(to, int64(n)) }
	put(o.Position.Index)
	put(o.Choice)
	put(o.Of)
	put(o.Count)
	kit := -1
	if id, ok := l.part[o.Kit]; ok {
		kit = int(id)
	}
	put(kit)
	return encodeWhere(to, o.Has, o.Where)
}

// encodeWhere appends boxes and the values that occur on the platform.
func encodeWhere(to []byte, has []model.TraitSet, where []model.Box) []byte {
	put := func(n int) { to = binary.AppendVarint(to, int64(n)) }
	sets := func(ts []model.TraitSet) {
		put(len(ts))
		for _, t := range ts {
			put(t.Trait.Index)
			put(t.Values.Len())
			for v := range t.Values.Values() {
				put(v)
			}
		}
	}
	sets(has)
	put(len(where))
	for _, b := range where {
		put(len(b.Years))
		for _, s := range b.Years {
			put(s.From)
			put(s.To)
		}
		sets(b.Traits)
		sets(b.So)
	}
	return to
}

// decode reads back what encode wrote.
func (l *Store) decode(data []byte) Offer {
	r := reader{data}
	o := Offer{Position: l.cat.Positions[r.int()], Choice: r.int(), Of: r.int(), Count: r.int()}
	if kit := r.int(); kit >= 0 {
		o.Kit = l.cat.Parts[kit]
	}
	o.Has, o.Where = l.where(&r)
	return o
}

// where reads back what encodeWhere wrote.
func (l *Store) where(r *reader) (has []model.TraitSet, where []model.Box) {
	has = l.sets(r)
	where = make([]model.Box, r.int())
	for i := range where {
		b := &where[i]
		for range r.int() {
			b.Years = append(b.Years, model.Span{From: r.int(), To: r.int()})
		}
		b.Traits, b.So = l.sets(r), l.sets(r)
	}
	return has, where
}

func (l *Store) sets(r *reader) []model.TraitSet {
	var out []model.TraitSet
	for range r.int() {
		trait, values := l.cat.Traits[r.int()], make([]int, r.int())
		for i := range values {
			values[i] = r.int()
		}
		out = append(out, trait.Is(values...))
	}
	return out
}

// reader takes numbers from the front of what an offer was written as. That it ends
// early is a broken invariant.
type reader struct{ rest []byte }

func (r *reader) int() int {
	n, size := binary.Varint(r.rest)
	if size <= 0 {
		panic("offer: an offer is cut short")
	}
	r.rest = r.rest[size:]
	return int(n)
}
