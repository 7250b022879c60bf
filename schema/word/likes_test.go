package word

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestLikesAreSlips holds what is found of a list against Slip of each name among those allowed.
func TestLikesAreSlips(t *testing.T) {
	var names []string
	for _, a := range []string{"rocks", "Rock", "rokcs about", "rocks about", "dives", "dive", "leans at a stop", "leans at stop", "", "x"} {
		for _, b := range []string{"", " when braking", " wen braking", " \u00fcber"} {
			if name := a + b; !slices.ContainsFunc(names, func(o string) bool { return Fold(o) == Fold(name) }) {
				names = append(names, name)
			}
		}
	}
	found := 0
	likes := NewLikes(names)
	for i, name := range names {
		for from := range 3 {
			allowed := func(k int) bool { return k%3 != from }
			var others []string
			for k, o := range names {
				if k != i && allowed(k) {
					others = append(others, o)
				}
			}
			want := slices.Index(names, Slip(name, others))
			if Slip(name, others) == "" {
				want = -1
			}
			assert.Equal(t, want, likes.Slip(i, allowed), "%q", name)
			if want >= 0 {
				found++
			}
		}
	}
	assert.Greater(t, found, 10)
}

// Of very many names those that differ in one letter are found.
func TestLikesOfManyNames(t *testing.T) {
	var names []string
	for i := range 2 * many {
		names = append(names, fmt.Sprintf("%d is what rocks", i*10_007))
	}
	names = append(names, "10007 is hwat rocks", "10007 is what rcks now")
	likes := NewLikes(names)
	any := func(int) bool { return true }
	assert.Equal(t, 1, likes.Slip(2*many, any), "two letters that changed places")
	assert.Equal(t, -1, likes.Slip(2*many+1, any))
	assert.Equal(t, -1, likes.Slip(2*many, func(i int) bool { return i != 1 }))
}
