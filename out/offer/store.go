package offer

import (
	"cmp"
	"slices"
	"sync"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Store keeps what guides offer. Its methods may be called by several goroutines.
type Store struct {
	cat  *model.Catalogue
	in   holdings
	part map[*model.Part]int32 // index in cat.Parts

	mu    sync.Mutex
	spill spill
	last  []int64 // per part: where its newest offer lies, -1 where it has none

	rule     map[*model.Rule]int32 // index in cat.Rules
	lastRule []int64               // per rule, as last

	complaint   map[*model.Complaint]int32 // index in cat.Complaints
	lastAgainst []int64                    // per part, as last
}

// New gives an empty store. dir is where its file is made, if it needs one; "" leaves
// that to the system.
func New(cat *model.Catalogue, dir string) *Store {
	l := &Store{cat: cat, in: holdingsOf(cat), part: make(map[*model.Part]int32, len(cat.Parts)),
		spill: spill{dir: dir}, last: make([]int64, len(cat.Parts)),
		rule: make(map[*model.Rule]int32, len(cat.Rules)), lastRule: make([]int64, len(cat.Rules)),
		complaint: make(map[*model.Complaint]int32, len(cat.Complaints)), lastAgainst: make([]int64, len(cat.Parts))}
	for i, p := range cat.Parts {
		l.part[p], l.last[i], l.lastAgainst[i] = int32(i), -1, -1
	}
	for i, r := range cat.Rules {
		l.rule[r], l.lastRule[i] = int32(i), -1
	}
	for i, c := range cat.Complaints {
		l.complaint[c] = int32(i)
	}
	return l
}

// Close removes the store's file.
func (l *Store) Close() error { return l.spill.close() }

// Add writes down what the guide of one platform offers. Parts that nothing declares
// are left out: they have no page.
func (l *Store) Add(g *decide.Guide) error {
	occurs := usesOf(g)
	var entries []entry
	for _, a := range g.Answers {
		ps, os := offered(g, a, l.in, occurs)
		for i, p := range ps {
			if id, ok := l.part[p]; ok {
				entries = append(entries, entry{&l.last[id], l.encode(nil, os[i])})
			}
		}
		if len(g.Complaints) > 0 {
			entries = append(entries, l.against(g, ps, os)...)
		}
	}
	for _, u := range g.Rules {
		if id, ok := l.rule[u.Rule]; ok {
			entries = append(entries, entry{&l.lastRule[id], l.encodeRule(nil, u, occurs)})
		}
	}
	return l.write(g.Platform, entries)
}

// entry is what is written down of a part or a rule, with where the place of its newest
// entry is kept.
type entry struct {
	last *int64
	text []byte
}

func (l *Store) write(p *model.Platform, entries []entry) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, e := range entries {
		at, err := l.spill.add(header{*e.last, int32(p.Index), int32(len(e.text))}.before(e.text))
		if err != nil {
			return err
		}
		*e.last = at
	}
	return nil
}

// each calls f with what is written down from an entry back to the first.
func (l *Store) each(last *int64, f func(p *model.Platform, text []byte)) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	for at := *last; at >= 0; {
		h, text, err := l.spill.read(at)
		if err != nil {
			return err
		}
		f(l.cat.Platforms[h.platform], text)
		at = h.previous
	}
	return nil
}

// Of lists the offers of a part, platforms and positions in the order of the catalogue.
func (l *Store) Of(p *model.Part) ([]Offer, error) {
	id, ok := l.part[p]
	if !ok {
		return nil, nil
	}
	var out []Offer
	err := l.each(&l.last[id], func(on *model.Platform, text []byte) {
		o := l.decode(text)
		o.Platform = on
		out = append(out, o)
	})
	if err != nil {
		return nil, err
	}
	slices.Reverse(out)
	slices.SortStableFunc(out, func(a, b Offer) int { return cmp.Compare(a.Platform.Index, b.Platform.Index) })
	return out, nil
}

// About gives all that is written down about a part.
func (l *Store) About(p *model.Part) (list []Offer, rules []Rule, against []Against, err error) {
	if list, err = l.Of(p); err != nil {
		return nil, nil, nil, err
	}
	if rules, err = l.Rules(p); err != nil {
		return nil, nil, nil, err
	}
	against, err = l.Against(p)
	return list, rules, against, err
}
