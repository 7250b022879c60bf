package word

import (
	"cmp"
	"hash/maphash"
	"slices"
)

// Slips finds the names that differ from others in one letter, many times over: Within
// compares with every name, and so takes as long for each.
//
// Two names differ in one letter at most where they are the same once at most one letter
// is left out of each. So what is left of every name is kept, by hash, and what a name and
// another have in common is compared letter by letter.
type Slips struct {
	names, folded []string
	seed          maphash.Seed
	left          []left // by hash
}

// left is what is left of a name.
type left struct {
	hash uint64
	name int32
}

// NewSlips gets ready to find names, which must stay as they are.
func NewSlips(names []string) *Slips {
	x := &Slips{names: names, seed: maphash.MakeSeed()}
	for i, name := range names {
		x.folded = append(x.folded, Fold(name))
		for _, h := range x.without(x.folded[i]) {
			x.left = append(x.left, left{h, int32(i)})
		}
	}
	slices.SortFunc(x.left, func(a, b left) int { return cmp.Or(cmp.Compare(a.hash, b.hash), cmp.Compare(a.name, b.name)) })
	return x
}

// Within gives the names that differ from s in at most one letter, in their order.
func (x *Slips) Within(s string) []string {
	folded, near := Fold(s), []int32(nil)
	for _, h := range x.without(folded) {
		i, _ := slices.BinarySearchFunc(x.left, h, func(l left, h uint64) int { return cmp.Compare(l.hash, h) })
		for ; i < len(x.left) && x.left[i].hash == h; i++ {
			near = append(near, x.left[i].name)
		}
	}
	slices.Sort(near)
	var out []string
	for _, i := range slices.Compact(near) {
		if distance(folded, x.folded[i], 1) <= 1 {
			out = append(out, x.names[i])
		}
	}
	return out
}

// without hashes a text as it is, and without each of its letters.
func (x *Slips) without(s string) []uint64 {
	out := []uint64{maphash.String(x.seed, s)}
	letters := []rune(s)
	for i := range letters {
		out = append(out, maphash.String(x.seed, string(letters[:i])+string(letters[i+1:])))
	}
	return out
}
