package space_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/space"
)

// TestTreesShortenPartitions holds that both ways of Partition are worth their effort: on
// catalogues as people keep them the leaves of trees make it shorter than carving alone,
// and never longer.
func TestTreesShortenPartitions(t *testing.T) {
	all, carved := 0, 0
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 5))
		sizes := traitSizes(r, 4, 4)
		rows, vehicles := fitment(r, sizes, 14), existing(r, sizes)
		s := space.New(sizes, space.Options{Order: space.Order(len(sizes), rows)})
		classes, care := outcomes(s, rows, vehicles, 5)
		n, m := len(s.Partition(classes, care)), len(s.Carved(classes, care))
		assert.LessOrEqual(t, n, m, "seed %d", seed)
		all, carved = all+n, carved+m
	}
	assert.Less(t, 100*all, 99*carved, "%d and %d boxes", all, carved)
	t.Logf("%d boxes, %d where carved alone", all, carved)
}
