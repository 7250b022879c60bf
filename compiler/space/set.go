package space

import (
	"iter"
	"math/bits"
	"strconv"
	"strings"
)

// Set is a set of values of one trait: bit v%64 of word v/64 is value v. A Set is
// never changed once it is in a Box. Trailing zero words may be missing. A nil Set
// has no values; only as an entry of a Box does it stand for all of them, so every
// function here returns a Set that is not nil.
type Set []uint64

// SetOf gives the set of the values vs, each zero or more.
func SetOf(vs ...int) Set {
	last := -1
	for _, v := range vs {
		last = max(last, v)
	}
	set := make(Set, last/64+1)
	for _, v := range vs {
		set[v/64] |= 1 << (v % 64)
	}
	return set
}

// Range gives the values from lo to hi, both included; the empty set where hi < lo.
func Range(lo, hi int) Set {
	if hi < lo {
		return Set{}
	}
	set := make(Set, hi/64+1)
	for v := lo; v <= hi; v++ {
		set[v/64] |= 1 << (v % 64)
	}
	return set
}

// All gives the n values of a trait of n values.
func All(n int) Set { return Range(0, n-1) }

// Has tells whether v is in the set.
func (s Set) Has(v int) bool {
	return v >= 0 && v/64 < len(s) && s[v/64]>>(v%64)&1 == 1
}

// Len is the number of values.
func (s Set) Len() int {
	n := 0
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

// IsEmpty tells whether there are no values.
func (s Set) IsEmpty() bool {
	for _, w := range s {
		if w != 0 {
			return false
		}
	}
	return true
}

// Equal tells whether both have the same values.
func (s Set) Equal(t Set) bool {
	for i := range max(len(s), len(t)) {
		if s.word(i) != t.word(i) {
			return false
		}
	}
	return true
}

// Meets tells whether a value is in both.
func (s Set) Meets(t Set) bool {
	for i := range min(len(s), len(t)) {
		if s[i]&t[i] != 0 {
			return true
		}
	}
	return false
}

// In tells whether every value of s is in t.
func (s Set) In(t Set) bool {
	for i, w := range s {
		if w&^t.word(i) != 0 {
			return false
		}
	}
	return true
}

// And gives the values in both.
func (s Set) And(t Set) Set {
	out := make(Set, min(len(s), len(t)))
	for i := range out {
		out[i] = s[i] & t[i]
	}
	return out
}

// Or gives the values in either.
func (s Set) Or(t Set) Set {
	out := make(Set, max(len(s), len(t)))
	for i := range out {
		out[i] = s.word(i) | t.word(i)
	}
	return out
}

// Without gives the values of s that are not in t.
func (s Set) Without(t Set) Set {
	out := make(Set, len(s))
	for i, w := range s {
		out[i] = w &^ t.word(i)
	}
	return out
}

// Not gives the values of a trait of n values that are not in s.
func (s Set) Not(n int) Set { return All(n).Without(s) }

// Min is the least value, -1 where there is none.
func (s Set) Min() int {
	for i, w := range s {
		if w != 0 {
			return 64*i + bits.TrailingZeros64(w)
		}
	}
	return -1
}

// Max is the greatest value, -1 where there is none.
func (s Set) Max() int {
	for i := len(s) - 1; i >= 0; i-- {
		if s[i] != 0 {
			return 64*i + 63 - bits.LeadingZeros64(s[i])
		}
	}
	return -1
}

// Values goes through the values in ascending order.
func (s Set) Values() iter.Seq[int] {
	return func(yield func(int) bool) {
		for i, w := range s {
			for ; w != 0; w &= w - 1 {
				if !yield(64*i + bits.TrailingZeros64(w)) {
					return
				}
			}
		}
	}
}

// Runs goes through the longest ranges of successive values, in ascending order,
// each as its first and last value.
func (s Set) Runs() iter.Seq2[int, int] {
	return func(yield func(lo, hi int) bool) {
		lo, hi := -1, -1
		for v := range s.Values() {
			if lo >= 0 && v == hi+1 {
				hi = v
				continue
			}
			if lo >= 0 && !yield(lo, hi) {
				return
			}
			lo, hi = v, v
		}
		if lo >= 0 {
			yield(lo, hi)
		}
	}
}

func (s Set) word(i int) uint64 {
	if i < len(s) {
		return s[i]
	}
	return 0
}

// String lists the values as ranges: `{0-2 5}`.
func (s Set) String() string {
	var parts []string
	for lo, hi := range s.Runs() {
		part := strconv.Itoa(lo)
		if hi > lo {
			part += "-" + strconv.Itoa(hi)
		}
		parts = append(parts, part)
	}
	return "{" + strings.Join(parts, " ") + "}"
}
