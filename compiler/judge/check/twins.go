package check

import (
	"hash/maphash"
	"slices"
)

// twins sorts out, of many things with keys, those whose key no other has, before the keys of the
// rest are kept and compared: in a catalogue of millions of conditions hardly two are alike.
type twins struct {
	seed   maphash.Seed
	hashes []uint64 // of the things as they came
	sorted []uint64 // the same, once all are there
}

func newTwins() *twins { return &twins{seed: maphash.MakeSeed()} }

// begin forgets all things and makes room for so many.
func (t *twins) begin(n int) {
	t.hashes, t.sorted = slices.Grow(t.hashes[:0], n), t.sorted[:0]
}

// add takes the key of one thing more.
func (t *twins) add(key []byte) { t.hashes = append(t.hashes, maphash.Bytes(t.seed, key)) }

// may tells whether another thing may have the key of the i-th; no more may be added then. Where two
// have the same it is true, and where not it is hardly ever.
func (t *twins) may(i int) bool {
	if len(t.sorted) == 0 {
		t.sorted = append(t.sorted, t.hashes...)
		slices.Sort(t.sorted)
	}
	at, _ := slices.BinarySearch(t.sorted, t.hashes[i])
	return at+1 < len(t.sorted) && t.sorted[at+1] == t.hashes[i]
}
