package parallel

import (
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestEachDoesAllOnce(t *testing.T) {
	for _, workers := range []int{1, 3, 40} {
		done := make([]atomic.Int32, 20)
		busy := make([]atomic.Int32, workers)
		Each(len(done), workers, func(worker, i int) {
			assert.Equal(t, int32(1), busy[worker].Add(1), "a worker does one thing at a time")
			done[i].Add(1)
			busy[worker].Add(-1)
		})
		for i := range done {
			assert.Equal(t, int32(1), done[i].Load())
		}
	}
}

func TestPanicReachesTheCaller(t *testing.T) {
	defer func() { assert.Contains(t, recover(), "broken") }()
	Each(9, 2, func(_, i int) {
		if i == 4 {
			panic("broken")
		}
	})
	t.Error("nothing was thrown")
}

func TestWorkers(t *testing.T) {
	assert.Equal(t, 3, Workers(3))
	assert.Positive(t, Workers(0))
}
