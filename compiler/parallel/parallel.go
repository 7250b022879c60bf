// Package parallel shares work on numbered things out among workers.
package parallel

import (
	"runtime"

	"ferrule/sheets/guard"
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
// A panic of f becomes one of the caller's, a *guard.Fault; the caller alone can say what it
// means. Nothing is begun after it.
func Each(n, workers int, f func(worker, i int)) {
	next := make(chan int)
	g := guard.NewGroup()
	for worker := range min(workers, n) {
		g.Go(func() {
			for i := range next {
				f(worker, i)
			}
		})
	}
	feed(n, next, g.Failed())
	close(next)
	g.Wait()
}

// feed hands out 0 to n-1 unless a worker fails.
func feed(n int, next chan<- int, failed <-chan struct{}) {
	for i := range n {
		select {
		case next <- i:
		case <-failed:
			return
		}
	}
}

// Do calls functions on so many workers; 0 stands for as many as there are processors.
func Do(workers int, all ...func()) {
	Each(len(all), Workers(workers), func(_, i int) { all[i]() })
}
