package offer

import (
	"cmp"
	"slices"
	"sync"

	"ferrule/compiler/decide"
	"ferrule/compiler/model"
)

// Ledger keeps what guides offer. Its methods may be called by several goroutines.
type Ledger struct {
	cat  *model.Catalogue
	in   holdings
	part map[*model.Part]int32 // index in cat.Parts

	mu    sync.Mutex
	spill spill
	last  []int64 // per part: where its newest offer lies, -1 where it has none
}

// New gives an empty ledger. dir is where its file is made, if it needs one; "" leaves
// that to the system.
func New(cat *model.Catalogue, dir string) *Ledger {
	l := &Ledger{cat: cat, in: holdingsOf(cat), part: make(map[*model.Part]int32, len(cat.Parts)),
		spill: spill{dir: dir}, last: make([]int64, len(cat.Parts))}
	for i, p := range cat.Parts {
		l.part[p], l.last[i] = int32(i), -1
	}
	return l
}

// Close removes the ledger's file.
func (l *Ledger) Close() error { return l.spill.close() }

// Add writes down what the guide of one platform offers. Parts that nothing declares
// are left out: they have no page.
func (l *Ledger) Add(g *decide.Guide) error {
	occurs := map[*model.Trait]model.TraitSet{}
	for _, u := range g.Traits {
		occurs[u.Trait] = model.TraitSet(u)
	}
	var texts [][]byte
	var parts []int32
	for _, a := range g.Answers {
		ps, os := offered(g.Platform, a, l.in, occurs)
		for i, p := range ps {
			if id, ok := l.part[p]; ok {
				texts, parts = append(texts, l.encode(nil, os[i])), append(parts, id)
			}
		}
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	for i, id := range parts {
		at, err := l.spill.add(header{l.last[id], int32(g.Platform.Index), int32(len(texts[i]))}.before(texts[i]))
		if err != nil {
			return err
		}
		l.last[id] = at
	}
	return nil
}

// Of lists the offers of a part, platforms and positions in the order of the catalogue.
func (l *Ledger) Of(p *model.Part) ([]Offer, error) {
	id, ok := l.part[p]
	if !ok {
		return nil, nil
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	var out []Offer
	for at := l.last[id]; at >= 0; {
		h, text, err := l.spill.read(at)
		if err != nil {
			return nil, err
		}
		o := l.decode(text)
		o.Platform = l.cat.Platforms[h.platform]
		out, at = append(out, o), h.previous
	}
	slices.Reverse(out)
	slices.SortStableFunc(out, func(a, b Offer) int { return cmp.Compare(a.Platform.Index, b.Platform.Index) })
	return out, nil
}
