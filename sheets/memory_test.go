package sheets_test

import (
	"runtime"
	"sync/atomic"
	"time"
)

// peakOf gives the most memory in use at any time of do, taken from the system for
// the heap and stacks, without what was there before.
func peakOf(do func()) float64 {
	runtime.GC()
	var before runtime.MemStats
	runtime.ReadMemStats(&before)
	var peak atomic.Uint64
	stop, stopped := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(stopped)
		for {
			var now runtime.MemStats
			runtime.ReadMemStats(&now)
			peak.Store(max(peak.Load(), now.HeapInuse+now.StackInuse))
			select {
			case <-stop:
				return
			case <-time.After(time.Millisecond):
			}
		}
	}()
	do()
	close(stop)
	<-stopped
	return float64(peak.Load()) - float64(min(peak.Load(), before.HeapInuse+before.StackInuse))
}
