package offer

import (
	"encoding/binary"

	"ferrule/compiler/line"
	"ferrule/compiler/model"
)

// encode appends an offer, without its platform, as numbers of variable length: what is
// of the catalogue by its index. The stretches of a platform are no values of the catalogue:
// of them the ranges are written, which need no platform to be read.
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
	return encodeGlance(encodeWhere(to, o.Has, o.Where), o.Glance)
}

// encodeGlance appends a picture: how many rows it has, none where there is no picture.
func encodeGlance(to []byte, g *Glance) []byte {
	put := func(n int) { to = binary.AppendVarint(to, int64(n)) }
	if g == nil {
		put(0)
		return to
	}
	put(len(g.Rows))
	to = encodeSets(to, setsOf(g.By))
	for _, r := range g.Rows {
		to = encodeSets(to, setsOf(r.Of))
		put(len(r.Runs))
		for _, run := range r.Runs {
			put(run.From)
			put(run.To)
			put(int(run.State))
		}
	}
	return to
}

// setsOf is a set as a list, which is empty where there is no trait.
func setsOf(t model.TraitSet) []model.TraitSet {
	if t.Trait == nil {
		return nil
	}
	return []model.TraitSet{t}
}

// encodeWhere appends boxes and the values that occur on the platform.
func encodeWhere(to []byte, has []model.TraitSet, where []model.Box) []byte {
	put := func(n int) { to = binary.AppendVarint(to, int64(n)) }
	to = encodeSets(to, has)
	put(len(where))
	for _, b := range where {
		put(len(b.Years))
		for _, s := range b.Years {
			put(s.From)
			put(s.To)
		}
		to = encodeSets(encodeSets(to, b.Traits), b.So)
	}
	return to
}

func encodeSets(to []byte, ts []model.TraitSet) []byte {
	put := func(n int) { to = binary.AppendVarint(to, int64(n)) }
	put(len(ts))
	for _, t := range ts {
		put(t.Trait.Index)
		if t.Trait.Kind.OnLine() {
			to = encodeLine(to, t)
			continue
		}
		put(t.Values.Len())
		for v := range t.Values.Values() {
			put(v)
		}
	}
	return to
}

// encodeLine appends the ranges of a trait on a line.
func encodeLine(to []byte, t model.TraitSet) []byte {
	ranges, absent := t.Ranges()
	applies := int64(1)
	if absent {
		applies = 0
	}
	to = binary.AppendVarint(to, applies)
	to = binary.AppendVarint(to, int64(len(ranges)))
	for _, r := range ranges {
		to = binary.AppendVarint(to, int64(len(r.Letters)))
		to = append(to, r.Letters...)
		to = binary.AppendVarint(to, r.From)
		to = binary.AppendVarint(to, r.To)
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
	o.Glance = l.glance(&r)
	return o
}

// glance reads back what encodeGlance wrote.
func (l *Store) glance(r *reader) *Glance {
	rows := r.int()
	if rows == 0 {
		return nil
	}
	g := &Glance{By: l.setOf(r), Rows: make([]GlanceRow, rows)}
	for i := range g.Rows {
		row := &g.Rows[i]
		row.Of, row.Runs = l.setOf(r), make([]GlanceRun, r.int())
		for j := range row.Runs {
			row.Runs[j] = GlanceRun{model.Span{From: r.int(), To: r.int()}, GlanceState(r.int())}
		}
	}
	return g
}

// setOf reads what setsOf was written as.
func (l *Store) setOf(r *reader) (t model.TraitSet) {
	for _, t = range l.sets(r) {
	}
	return t
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
		trait := l.cat.Traits[r.int()]
		if trait.Kind.OnLine() {
			out = append(out, r.line(trait))
			continue
		}
		values := make([]int, r.int())
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

func (r *reader) int() int { return int(r.int64()) }

func (r *reader) int64() int64 {
	n, size := binary.Varint(r.rest)
	if size <= 0 {
		panic("offer: an offer is cut short")
	}
	r.rest = r.rest[size:]
	return n
}

// line reads back what encodeLine wrote of a trait of the catalogue.
func (r *reader) line(t *model.Trait) model.TraitSet {
	var out model.TraitSet
	if r.int() == 0 {
		out = t.Is(t.Absent())
	}
	out.Trait, out.Line = t, &model.Line{Ranges: make(line.Set, r.int())}
	for i := range out.Line.Ranges {
		letters := r.text(r.int())
		out.Line.Ranges[i] = line.Range{Letters: letters, From: r.int64(), To: r.int64()}
	}
	return out
}

func (r *reader) text(length int) string {
	if length > len(r.rest) {
		panic("offer: an offer is cut short")
	}
	out := string(r.rest[:length])
	r.rest = r.rest[length:]
	return out
}
