package site

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// each calls do for 0 to n-1 on as many goroutines as there are processors, and stops at
// an error. A panic of do becomes one of the caller's.
func each(n int, do func(i int) error) error {
	var next atomic.Int64
	var once sync.Once
	var first error
	var fault any
	stop := func(err error, panicked any) {
		once.Do(func() { first, fault = err, panicked })
		next.Store(int64(n))
	}
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wg.Go(func() {
			defer func() {
				if p := recover(); p != nil {
					stop(nil, p)
				}
			}()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				if err := do(i); err != nil {
					stop(err, nil)
				}
			}
		})
	}
	wg.Wait()
	if fault != nil {
		panic(fault)
	}
	return first
}
