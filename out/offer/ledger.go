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

	mu      sync.Mutex
	spill   spill
	entries [][]entry // per part
}

// entry is where an offer of a part lies.
type entry struct {
	at       int64
	size     int32
	platform int32
}

// New gives an empty ledger. dir is where its file is made, if it needs one; "" leaves
// that to the system.
func New(cat *model.Catalogue, dir string) *Ledger {
	l := &Ledger{cat: cat, in: holdingsOf(cat), part: make(map[*model.Part]int32, len(cat.Parts)),
		spill: spill{dir: dir}, entries: make([][]entry, len(cat.Parts))}
	for i, p := range cat.Parts {
		l.part[p] = int32(i)
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
	var data []byte
	var parts []int32
	var ends []int
	for _, a := range g.Answers {
		ps, os := offered(g.Platform, a, l.in, occurs)
		for i, p := range ps {
			if id, ok := l.part[p]; ok {
				data = l.encode(data, os[i])
				parts, ends = append(parts, id), append(ends, len(data))
			}
		}
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	at, err := l.spill.add(data)
	begin := 0
	for i, id := range parts {
		l.entries[id] = append(l.entries[id], entry{at + int64(begin), int32(ends[i] - begin), int32(g.Platform.Index)})
		begin = ends[i]
	}
	return err
}

// Of lists the offers of a part, platforms and positions in the order of the catalogue.
func (l *Ledger) Of(p *model.Part) ([]Offer, error) {
	id, ok := l.part[p]
	if !ok {
		return nil, nil
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	list := l.entries[id]
	slices.SortStableFunc(list, func(a, b entry) int { return cmp.Compare(a.platform, b.platform) })
	out := make([]Offer, len(list))
	for i, e := range list {
		data, err := l.spill.read(e.at, int(e.size))
		if err != nil {
			return nil, err
		}
		out[i] = l.decode(data)
		out[i].Platform = l.cat.Platforms[e.platform]
	}
	return out, nil
}
