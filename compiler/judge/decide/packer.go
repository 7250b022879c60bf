package decide

import (
	"encoding/binary"
	"math/big"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// packer writes what unpacker reads, in the same order.
type packer struct {
	text []byte
	refs []any
	at   map[any]int // where each of refs is
	// Boxes, what cases say, and trees that were written, numbered in that order.
	boxes, words, trees map[string]int
}

func (w *packer) int(n int)       { w.text = binary.AppendVarint(w.text, int64(n)) }
func (w *packer) word(n uint64)   { w.text = binary.AppendUvarint(w.text, n) }
func (w *packer) bytes(bs []byte) { w.int(len(bs)); w.text = append(w.text, bs...) }

func (w *packer) bool(b bool) {
	n := 0
	if b {
		n = 1
	}
	w.int(n)
}

// ref writes what is of the catalogue, or a text.
func (w *packer) ref(v any) {
	n, known := w.at[v]
	if !known {
		n = len(w.refs)
		w.at[v], w.refs = n, append(w.refs, v)
	}
	w.int(n)
}

// once writes what write does the first time that it comes, and its number after that.
func (w *packer) once(known map[string]int, write func()) {
	start := len(w.text)
	w.int(len(known))
	begin := len(w.text)
	write()
	key := string(w.text[begin:])
	if n, again := known[key]; again {
		w.text = w.text[:start]
		w.int(n)
		return
	}
	known[key] = len(known)
}

// putList writes a list; one that is nil is read back as nil.
func putList[T any](w *packer, list []T, put func(T)) {
	if list == nil {
		w.int(0)
		return
	}
	w.int(len(list) + 1)
	for _, v := range list {
		put(v)
	}
}

func (w *packer) big(n *big.Int) {
	if w.bool(n != nil); n != nil {
		w.bytes(number(n))
	}
}

func (w *packer) rat(n *big.Rat) {
	if w.bool(n != nil); n != nil {
		w.bytes(number(n.Num()))
		w.bytes(number(n.Denom()))
	}
}

func (w *packer) set(s space.Set) { putList(w, s, w.word) }

func (w *packer) box(b model.Box) {
	w.once(w.boxes, func() {
		putList(w, b.Years, func(s model.Span) {
			w.int(s.From)
			w.int(s.To)
		})
		putList(w, b.Traits, w.traitSet)
		putList(w, b.So, w.traitSet)
	})
}

func (w *packer) traitSet(t model.TraitSet) {
	w.ref(t.Trait)
	w.set(t.Values)
	w.ref(t.Line)
}

func (w *packer) answer(a *Answer) {
	w.ref(a.Position)
	w.bool(a.Exact)
	w.big(a.Configurations)
	for o := range a.Counts {
		w.big(a.Counts[o])
		w.rat(a.Road[o])
	}
	putList(w, a.Cases, w.kase)
	putList(w, a.Unsettled, w.box)
	w.bool(a.Unlisted)
	putList(w, a.Against, func(g Against) {
		w.ref(g.Cause)
		putList(w, g.Where, w.box)
	})
	w.int(a.Classes)
	w.once(w.trees, func() { w.tree(a.Questions.Tree) })
	w.rat(a.Questions.Expected)
	w.rat(a.Questions.Least)
	w.bool(a.Questions.Exact)
}

func (w *packer) kase(c Case) {
	w.box(c.Where)
	w.big(c.Configurations)
	w.int(c.Class)
	w.once(w.words, func() { w.says(&c) })
}

// says writes what a case says, wherever it holds.
func (w *packer) says(c *Case) {
	w.int(int(c.Outcome))
	w.bool(c.Unsettled)
	w.int(c.Quantity)
	putList(w, c.Alternatives, func(a model.Alternative) {
		putList(w, a, func(it model.Item) {
			w.ref(it.Part)
			w.int(it.Quantity)
		})
	})
	w.ref(c.With)
	putList(w, c.Texts, func(t string) { w.ref(t) })
	putList(w, c.Notes, func(n model.Note) { w.ref(n) })
	putList(w, c.Cells, func(f *model.FitCell) { w.ref(f) })
}

func (w *packer) tree(t *Tree) {
	if w.bool(t != nil); t == nil {
		return
	}
	w.int(t.Trait)
	putList(w, t.Branches, func(b Branch) {
		w.set(space.Set(b.Values))
		w.tree(b.Next)
	})
	putList(w, t.Classes, w.int)
}
