package site

import (
	"sync"
	"sync/atomic"

	"ferrule/compiler/parallel"
)

// each calls do for 0 to n-1 on as many goroutines as there are processors, until there
// is an error.
func each(n int, do func(i int) error) error {
	var stopped atomic.Bool
	var once sync.Once
	var first error
	parallel.Each(n, parallel.Workers(0), func(_, i int) {
		if stopped.Load() {
			return
		}
		if err := do(i); err != nil {
			once.Do(func() { first = err })
			stopped.Store(true)
		}
	})
	return first
}
