// Package parallel shares work on numbered things out among workers.
package parallel

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
)

// Workers gives the number of workers that is meant: 0 stands for as many as there are
// processors.
func Workers(n int) int {
	if n <= 0 {
		return runtime.GOMAXPROCS(0)
	}
	return n
}

// Each calls f for 0 to n-1 on so many workers, each of which does one thing at a time.
// A panic of f becomes one of the caller's, who alone can say what it means.
func Each(n, workers int, f func(worker, i int)) {
	next := make(chan int)
	var wg sync.WaitGroup
	var once sync.Once
	var fault any
	guarded := func(worker, i int) {
		defer func() {
			if p := recover(); p != nil {
				once.Do(func() { fault = fmt.Sprintf("%v\n%s", p, debug.Stack()) })
			}
		}()
		f(worker, i)
	}
	for worker := range min(workers, n) {
		wg.Go(func() {
			for i := range next {
				guarded(worker, i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
	if fault != nil {
		panic(fault)
	}
}

// Do calls functions on so many workers; 0 stands for as many as there are processors.
func Do(workers int, all ...func()) {
	Each(len(all), Workers(workers), func(_, i int) { all[i]() })
}
