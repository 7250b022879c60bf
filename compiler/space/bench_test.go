package space_test

import (
	"ferrule/compiler/tidy/yardstick"
	"runtime"
	"sync/atomic"
	"testing"
	"time"
)

// took is the processor time of f.
func took(f func()) time.Duration {
	begin := yardstick.ProcessorTime()
	f()
	return yardstick.ProcessorTime() - begin
}

// against runs f as the benchmark and reports how many times longer a reference took,
// and the processor time of f.
func against(b *testing.B, f func(), references map[string]time.Duration) {
	begin, n := yardstick.ProcessorTime(), 0
	for b.Loop() {
		f()
		n++
	}
	one := max(1, yardstick.ProcessorTime()-begin) / time.Duration(n)
	b.ReportMetric(float64(one.Microseconds())/1000, "cpu-ms/op")
	for name, d := range references {
		b.ReportMetric(float64(d)/float64(max(1, one)), "x-"+name)
	}
}

// peak is the largest heap, in MB, while f runs; it looks every few milliseconds.
func peak(f func()) float64 {
	runtime.GC()
	var most atomic.Uint64
	stop, done := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(done)
		var m runtime.MemStats
		for {
			runtime.ReadMemStats(&m)
			most.Store(max(most.Load(), m.HeapInuse))
			select {
			case <-stop:
				return
			case <-time.After(3 * time.Millisecond):
			}
		}
	}()
	f()
	close(stop)
	<-done
	return float64(most.Load()) / 1e6
}
