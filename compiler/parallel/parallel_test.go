package parallel

import (
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets/guard"
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
	defer func() {
		f, ok := recover().(*guard.Fault)
		require.True(t, ok, "nothing was thrown")
		assert.Equal(t, "broken", f.Cause)
		assert.Contains(t, string(f.Stack), "breaks")
	}()
	Each(9, 2, func(_, i int) { breaks(i == 4) })
}

func breaks(now bool) {
	if now {
		panic("broken")
	}
}

// Nobody waits for ever where all workers are gone.
func TestAllWorkersPanic(t *testing.T) {
	assert.Panics(t, func() { Each(1000, 3, func(_, _ int) { breaks(true) }) })
}

func TestWorkers(t *testing.T) {
	assert.Equal(t, 3, Workers(3))
	assert.Positive(t, Workers(0))
}
